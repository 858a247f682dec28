//! One guest's glass: a drink solved, judged and priced once.

use std::sync::Arc;

use chrono::NaiveDate;
use rust_decimal::Decimal;
use uom::si::time::minute;

use crate::assessment::dressed::{ProductOn, products_on};
use crate::assessment::{Assessment, poured};
use crate::card::Card;
use crate::cost::{CostAsked, CostKind, Costing, PricedBy, SellAsked, SoldMeasure, cost_of, sell};
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::House;
use crate::solver::target::volume_ml;
use crate::solver::{Melt, Options, Solved, solve};
use crate::units::display::grouped;

use super::figures::Figures;

/// A drink as one guest gets it.
#[derive(Clone, Debug)]
pub struct Glass {
    /// The drink, with the water from its ice.
    pub solved: Solved,
    /// What it holds.
    pub figures: Figures,
    /// With the least and the most water that the ice may give; the same as above where it was weighed.
    pub range: (Figures, Figures),
    /// Allergens, cautions, doses: those of every bottle and house product in it.
    pub judged: Assessment,
    /// Products of the house that are put on it.
    pub(crate) on_it: Vec<ProductOn>,
    /// What it costs; `None` where nothing in it has a price.
    pub cost: Option<GlassCost>,
}

impl Glass {
    /// The work in it while the guest waits, minutes: its own, and that of the drinks inside it; `None` where its card does not say.
    pub(crate) fn minutes_at_the_bar(&self) -> Option<f64> {
        let own = |of: &Solved| of.card.labour.map(|labour| labour.value.get::<minute>());
        let drinks = self.solved.with_inner().into_iter().filter(|(of, _)| of.card.is_drink());
        own(&self.solved)?;
        Some(drinks.map(|(of, share)| share * own(of).unwrap_or(0.0)).sum())
    }
}

/// What a glass costs.
#[derive(Clone, Debug)]
pub struct GlassCost {
    /// One glass, not rounded.
    pub each: Decimal,
    /// The work in that; `None` where nobody has said what it costs.
    pub labour: Option<Decimal>,
    /// What so many of them cost, line by line, each rounded to the coin once.
    pub of_many: Costing,
    /// What it is sold for, and what stays.
    pub sold: Option<SoldMeasure>,
    /// What sets that price.
    pub priced_by: PricedBy,
}

/// Glasses that are costed together, so that the coin that a dash is rounded to does not count (ours).
pub const COSTED: u32 = 100;

/// A drink as one guest gets it; `None` where the card is no drink or cannot be solved, which is said.
pub fn glass(
    card: &Card,
    house: &House,
    today: Option<NaiveDate>,
    asked: SellAsked,
    found: &mut Vec<Diagnostic>,
) -> Option<Glass> {
    let solved = drink(card, house, found)?;
    let of = |melt| {
        let options = Options { melt, ..Options::default() };
        Figures::of(solve(card, house, &options).solved?.bottled())
    };
    let figures = Figures::of(solved.bottled()).or_else(|| {
        let title = "the volume of this drink cannot be computed, so nothing of it can be told by the glass";
        Diagnostic::error(Code::NoDensity, title).refused(found)
    })?;
    found.extend(more_than_a_glass(card, &figures));
    let range = (of(Melt::Least).unwrap_or(figures), of(Melt::Most).unwrap_or(figures));
    let (judged, of_judgement) = poured(&solved, house);
    found.extend(of_judgement);
    let cost = glass_cost(&solved, house, today, asked, found);
    let on_it = products_on(&solved, house);
    Some(Glass { solved, figures, range, judged, on_it, cost })
}

/// More alcohol than this is a slip of the pen, or is for a table: 8 UK units, four doubles of 50 ml at 40 % (ours).
const MOST_ALCOHOL_G: f64 = 64.0;
/// More than this no glass holds, ml (ours: a litre of beer).
const MOST_ML: f64 = 1000.0;

/// A nought too many is soon written.
fn more_than_a_glass(card: &Card, figures: &Figures) -> Option<Diagnostic> {
    let Figures { alcohol_g, volume_ml, uk_units, .. } = *figures;
    let holds =
        format!("{} ml with {} g of alcohol, {uk_units:.1} UK units", grouped(volume_ml, 0), grouped(alcohol_g, 0));
    (alcohol_g > MOST_ALCOHOL_G || volume_ml > MOST_ML).then(|| {
        Diagnostic::warning(Code::DrinkRule, format!("`{}` is more than one guest's glass: {holds}", card.name.value))
            .at(card.name.span, "for one guest?")
            .help("write the amounts of one glass; of a bowl for a table those of one guest")
            .in_file(&card.file)
    })
}

/// A drink, solved; a card that is none is refused.
pub fn drink(card: &Card, house: &House, found: &mut Vec<Diagnostic>) -> Option<Solved> {
    if !card.is_drink() {
        let title = format!("`{}` is no drink: its card does not say how it is made in the glass", card.name.value);
        return Diagnostic::error(Code::DrinkRule, title)
            .at(card.name.span, "a product of the house")
            .help("a drink has a card of its own: how = \"shaken\" and the parts of one glass under [parts]")
            .in_file(&card.file)
            .refused(found);
    }
    let solved = solve(card, house, &Options::default()).told(found).filter(|_| !any_error(found))?;
    // of a part the solver says it, where it looks it up
    let names = products_on(&solved, house).into_iter().flat_map(|of| of.holds);
    let pulled = names.flat_map(|name| house.said_of(&name).cloned().collect::<Vec<_>>());
    let pulled: Vec<_> = pulled.filter(|said| said.code == Code::LotPulled && !found.contains(said)).collect();
    found.extend(pulled);
    Some(solved)
}

pub(super) fn glass_cost(
    solved: &Solved,
    house: &House,
    today: Option<NaiveDate>,
    asked: SellAsked,
    found: &mut Vec<Diagnostic>,
) -> Option<GlassCost> {
    let count = f64::from(COSTED);
    let mut many = solved.clone().scaled(count);
    let own = Arc::make_mut(&mut many.card);
    if let Some(labour) = &mut own.labour {
        labour.value *= count;
    }
    let serving_ml = volume_ml(solved.bottled());
    let (costing, of_prices) = cost_of(&many, house, &CostAsked { today, serving_ml, ..CostAsked::default() });
    // A house without any prices may serve all the same.
    found.extend(of_prices.into_iter().filter(|d| costing.is_some() || d.code != Code::NoPrice));
    let costing = costing?;
    let each = costing.batch.checked_div(Decimal::from(COSTED))?;
    // that there is no price to sell it for follows from what has none, which is said above
    let mut of_selling = Vec::new();
    let sold = sell(&costing, house, asked, &mut of_selling);
    found.extend(of_selling.into_iter().filter(|d| d.code != Code::NoPrice));
    let labour = costing.line(CostKind::Labour).and_then(|line| line.cost?.checked_div(Decimal::from(COSTED)));
    Some(GlassCost { each, labour, of_many: costing, sold, priced_by: asked.priced_by() })
}
