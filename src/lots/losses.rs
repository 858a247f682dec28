//! What the batches say of what is lost and pressed: what strained solids held, from the weight of what was made against the
//! sheet; what juice a fruit gave, month by month. Offered to the house's larder, never taken.

use std::collections::BTreeMap;

use chrono::{Datelike, NaiveDate};
use serde::Serialize;

use crate::solver::Solved;
use crate::solver::resolve::Material;
use crate::spelling::fold;

use super::book::{LotBook, LotState};
use super::sheet::FrozenSheet;

/// Fewer batches than this, and nothing is offered (ours).
pub const FEW_BATCHES: usize = 3;

/// What solids held, batch by batch.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HeldLoss {
    /// The strained ingredient, as the larder calls it.
    pub of: String,
    /// How many batches were weighed.
    pub batches: usize,
    /// Grams a gram put in, on average.
    pub holds: f64,
    /// The deviation from batch to batch; none of one.
    pub deviation: Option<f64>,
    /// What the sheets were solved with.
    pub assumed: f64,
    /// How far off the larder says that may be; none where the card or the house states it.
    pub assumed_by: Option<f64>,
    /// What to write into larder.toml, where there are batches enough.
    pub entry: Option<String>,
}

/// What a fruit gave.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Pressing {
    /// The juice.
    pub of: String,
    /// The month, by its first day.
    pub month: NaiveDate,
    /// How many batches.
    pub batches: usize,
    /// How many fruits.
    pub pieces: f64,
    /// Grams of juice a fruit.
    pub grams_a_piece: f64,
    /// What to write into larder.toml, of the latest month with batches enough.
    pub entry: Option<String>,
}

/// What one batch says of one strained ingredient: grams held a gram, and what was assumed.
struct HeldOnce {
    of: String,
    held: f64,
    assumed: f64,
    assumed_by: Option<f64>,
}

/// What the solids of a lot held. Only where nothing else can explain a difference: its weight was read, one stage, one
/// strained part, nothing that goes up as steam.
fn held_once(lot: &LotState, solved: &Solved) -> Option<HeldOnce> {
    let [stage] = solved.stages.as_slice() else { return None };
    let mut strained = stage.parts.iter().filter_map(|part| Some((part, part.feed.holds?)));
    let (part, assumed) = strained.next()?;
    if !lot.recorded.weighed || strained.next().is_some() || stage.lost.evaporated != 0.0 || part.mass_g <= 0.0 {
        return None;
    }
    let used = lot.recorded.parts.iter().find(|used| fold(&used.of) == fold(&part.label))?;
    let sheet_g = solved.bottled().total_grams() * used.mass_g / part.mass_g;
    let held = assumed + (sheet_g - lot.recorded.mass_g) / (used.mass_g * (1.0 - stage.lost.left_behind));
    let larder = match &part.found.what {
        Material::Ingredient(ingredient) => ingredient.strained.as_ref(),
        Material::Card(_) | Material::Stage(_) => None,
    };
    // a card that states it itself was not solved with the larder's figure
    let by = larder.filter(|row| row.net() == assumed).map(|row| row.half_width());
    Some(HeldOnce { of: part.of.clone(), held, assumed, assumed_by: by })
}

/// What strained solids held, ingredient by ingredient. `sheet` gives what is kept with a lot.
pub fn held(book: &LotBook, sheet: impl Fn(&LotState) -> Option<FrozenSheet>) -> Vec<HeldLoss> {
    let mut all: BTreeMap<String, Vec<HeldOnce>> = BTreeMap::new();
    for lot in book.lots().filter(|lot| lot.recorded.weighed) {
        let once = sheet(lot).and_then(|sheet| held_once(lot, &sheet.solved(lot)?.1));
        if let Some(once) = once {
            all.entry(fold(&once.of)).or_default().push(once);
        }
    }
    all.into_values().filter_map(|of_one| together(&of_one)).collect()
}

fn together(all: &[HeldOnce]) -> Option<HeldLoss> {
    let last = all.last()?;
    let n = all.len() as f64;
    let holds = all.iter().map(|once| once.held).sum::<f64>() / n;
    let squares: f64 = all.iter().map(|once| (once.held - holds).powi(2)).sum();
    let entry = (all.len() >= FEW_BATCHES).then(|| entry(&last.of, &format!("holds  = {holds:.2}"), all.len()));
    Some(HeldLoss {
        of: last.of.clone(),
        batches: all.len(),
        holds,
        deviation: (all.len() > 1).then(|| (squares / (n - 1.0)).sqrt()),
        assumed: last.assumed,
        assumed_by: last.assumed_by,
        entry,
    })
}

/// An entry of larder.toml that changes one figure of an ingredient.
fn entry(of: &str, figure: &str, batches: usize) -> String {
    let name = crate::input::quoted(of);
    format!("[ingredient.{name}]\nlike   = {name}\n{figure}\nsource = \"{batches} batches of the house\"\n")
}

/// What juice a fruit gave, month by month, from the batches of which the fruits were counted.
pub fn pressings(book: &LotBook) -> Vec<Pressing> {
    let mut all: BTreeMap<(String, NaiveDate), (String, usize, f64, f64)> = BTreeMap::new();
    for lot in book.lots() {
        for pressed in &lot.recorded.pressed {
            let of = |part: &&super::PartUsed| fold(&part.of) == fold(&pressed.of);
            let Some(part) = lot.recorded.parts.iter().find(of) else { continue };
            let made = lot.recorded.made;
            let Some(month) = made.with_day(1) else { continue };
            let sum = all.entry((fold(&part.of), month)).or_insert_with(|| (part.of.clone(), 0, 0.0, 0.0));
            (sum.1, sum.2, sum.3) = (sum.1 + 1, sum.2 + pressed.pieces, sum.3 + part.mass_g);
        }
    }
    let mut pressings: Vec<Pressing> = all
        .into_iter()
        .map(|((_, month), (of, batches, pieces, grams))| Pressing {
            of,
            month,
            batches,
            pieces,
            grams_a_piece: grams / pieces,
            entry: None,
        })
        .collect();
    for place in 0..pressings.len() {
        let later = pressings.get(place + 1).is_some_and(|next| Some(&next.of) == pressings.get(place).map(|p| &p.of));
        if let Some(last) = pressings.get_mut(place).filter(|p| !later && p.batches >= FEW_BATCHES) {
            last.entry = Some(entry(&last.of, &format!("piece  = \"{:.0} g\"", last.grams_a_piece), last.batches));
        }
    }
    pressings
}
