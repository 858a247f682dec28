//! Why nothing on the shelf brings a batch to what it shall be, and what would.

use crate::card::Card;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::mixture::{Component, Mixture};

use super::super::balance::{BalanceError, MassBalance, TargetValue, value_of};
use super::super::card::{self, target_words};
use super::super::resolve::Material;
use super::super::{Solved, SolvedPart};
use super::shelf::{Choice, on_shelf, put};
use super::{ALREADY, MOST_PARTS, least};

/// Why nothing on the shelf does it, and what would.
pub(super) fn no_answer(
    card: &Card,
    house: &House,
    solved: &mut Solved,
    batch: &Mixture,
    shelf: &[Choice],
    targets: &[TargetValue],
    trouble: Option<BalanceError>,
) -> Diagnostic {
    if let Some(BalanceError::NoDensity(why)) = trouble {
        return Diagnostic::error(
            Code::NoDensity,
            format!("the density of the adjusted batch cannot be computed ({why})"),
        )
        .help("check the readings, and what is on the shelf");
    }
    let wish: Vec<_> = targets.iter().map(|&(kind, value)| target_words(kind, value)).collect();
    let names: Vec<_> = shelf.iter().flatten().map(|p| format!("`{}`", p.label)).collect();
    let off: Vec<_> = targets
        .iter()
        .filter_map(|&(kind, asked)| Some((kind, asked, value_of(kind, batch)?)))
        .filter(|(_, asked, has)| (asked - has).abs() > ALREADY * asked.abs().max(1.0))
        .map(|(kind, asked, has)| {
            format!(
                "it has {}, {} too {}",
                target_words(kind, has),
                target_words(kind, (asked - has).abs()),
                if has > asked { "much" } else { "little" }
            )
        })
        .collect();
    let with = if names.is_empty() { "nothing".to_owned() } else { names.join(", ") };
    let diagnostic = Diagnostic::error(
        Code::OutOfReach,
        format!("adding {with} cannot bring this batch to {}: {}", wish.join(" and "), off.join("; ")),
    );
    let mut ways = Vec::new();
    if let Some(add) = with_everything(card, house, solved, batch, shelf, targets) {
        let missing: Vec<_> = add
            .iter()
            .map(|p| format!("{:.0} g `{}`{}", p.mass_g, p.label, if on(shelf, p) { "" } else { " (missing)" }))
            .collect();
        ways.push(format!("it would take {}", missing.join(" and ")));
    }
    if let Some(water_g) = water_to_boil_off(card, house, solved, batch, targets) {
        ways.push(format!(
            "boil off {water_g:.0} g of water: the pan then holds {:.0} g",
            batch.total_grams() - water_g
        ));
    }
    if ways.is_empty() {
        ways.push(
            "what is in it would have to be taken out again, and that cannot be done: draw off a part of it, and \
             blend the rest into a fresh batch that is made weaker in what this one has too much of"
                .to_owned(),
        );
    }
    diagnostic.help(ways.join(", or "))
}

fn on(shelf: &[Choice], part: &SolvedPart) -> bool {
    shelf.iter().flatten().any(|p| p.found.per_gram == part.found.per_gram)
}

/// What would do it if every part of the card that can be stirred in, a sugar and water were at hand.
fn with_everything(
    card: &Card,
    house: &House,
    solved: &mut Solved,
    batch: &Mixture,
    shelf: &[Choice],
    targets: &[TargetValue],
) -> Option<Vec<SolvedPart>> {
    let mut all = shelf.to_vec();
    let soluble: Vec<SolvedPart> = solved
        .stages
        .iter()
        .flat_map(|s| &s.parts)
        .filter(|p| p.feed.holds.is_none() && !matches!(p.found.what, Material::Stage(_)))
        .map(|p| on_shelf(&p.label, p.found.clone(), 1.0))
        .collect();
    for part in soluble {
        put(&mut all, vec![part]);
    }
    for name in ["water", "white sugar"] {
        if let Ok(found) = card::find(card, house, name, solved) {
            put(&mut all, vec![on_shelf(name, found, 1.0)]);
        }
    }
    all.truncate(MOST_PARTS);
    least::least(batch, &all, targets).ok()
}

/// Water whose loss alone would do it: for one property of a batch without spirit.
fn water_to_boil_off(
    card: &Card,
    house: &House,
    solved: &mut Solved,
    batch: &Mixture,
    targets: &[TargetValue],
) -> Option<f64> {
    if targets.len() != 1 || batch.grams_of(Component::Ethanol) > 0.0 {
        return None;
    }
    let water = vec![on_shelf("water", card::find(card, house, "water", solved).ok()?, 1.0)];
    let lines = least::lines(batch, &[&water]);
    let masses = MassBalance { lines: &lines, targets, yields: None, left_behind: 0.0 }.solve_signed().ok()?;
    let gone = -masses.last()?;
    (gone > 0.0 && gone < batch.grams_of(Component::Water)).then_some(gone)
}
