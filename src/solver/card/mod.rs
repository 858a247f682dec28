//! A card, brought to the engine: looked up, stage by stage, solved for its last stage, and scaled
//! back through the earlier ones.

mod cook;
mod cuts;
mod ice;
mod lookup;
mod offer;
mod overview;
mod pieces;
mod rough;
mod stages;
mod steeped;
mod targets;
mod told_yield;
mod warm;
mod weighed;

pub(crate) use cook::asked_ml;
pub(super) use cook::yield_of;
pub use cook::{BatchSize, Melt, Options, SolveOutcome};
pub(crate) use lookup::{DEEPEST, find};
pub(crate) use offer::NONE;
pub use offer::{Offer, offer};
pub(crate) use overview::faults;
pub(crate) use warm::{is_hot, may_be_warm};

use crate::card::Card;
use crate::house::House;

/// Solves a card in its house: finds the amounts that it leaves open from its targets and its size.
///
/// ```
/// use stillroom::house::House;
/// use stillroom::solver::{Options, solve};
///
/// let text = r#"
/// name = "Rich syrup"
/// makes = "1 L"
/// [target]
/// brix = 65
/// [parts]
/// "white sugar" = "as needed"
/// water = "as needed"
/// "#;
/// let (card, _) = stillroom::card::read("rich.toml".into(), text.into());
/// let outcome = solve(&card.unwrap(), &House::default(), &Options::default());
/// let parts = &outcome.solved.unwrap().last().parts.iter().map(|p| p.mass_g.round()).collect::<Vec<_>>();
/// assert_eq!(*parts, [856.0, 461.0]);
/// ```
pub fn solve(card: &Card, house: &House, options: &Options) -> SolveOutcome {
    let mut cook = cook::Cook::new(card, house);
    // a drink that is poured into another has its own ice behind it, whatever the outer one meets
    let melt = if options.melt == Melt::None { Melt::Usual } else { options.melt };
    cook.of_inner = Options { melt, by_balance: options.by_balance, ..Options::default() };
    let solved = cook.card(card, options);
    let own = cook.errors.into_iter().filter(|(making, _)| *making == 1);
    SolveOutcome {
        solved,
        errors: own.map(|(_, error)| error).collect(),
        diagnostics: cook.found.into_iter().map(|d| d.in_file(&card.file)).collect(),
    }
}
