//! How far a gram of an ingredient may differ from what is known of it.

use crate::card::TargetKind;
use crate::house::Instruments;
use crate::instruments::readings::LABEL_ABV;
use crate::larder::{Form, Ingredient};
use crate::mixture::{Component, Mixture};
use crate::properties::value_of;
use crate::vocabulary::Evidence;

use super::Cause;

/// Natural spread of water and sugars of one kind of fruit, juice or syrup between national tables,
/// g per 100 g (USDA SR26 against CIQUAL 2020 and the Japanese tables: 3 g covers every row).
const NATURAL: f64 = 3.0;
/// Natural spread of the acid of a juice between the same tables, g per 100 g. Half the difference
/// that covers every row: limes of one house differ less than those of two continents (ours).
const NATURAL_ACID: f64 = 1.0;
/// A titrated acid, relative: 1 % from the burette on a sample of 10 ml, 1 % from the base, and 0.8 % by which the last
/// proton of citric acid is short of pH 8.1 in an undiluted lime juice; together 1.6 %, rounded up.
pub(crate) const TITRATED: f64 = 0.02;
/// Moisture of dark muscovado runs from 0.5 to 5 % in a raw-sugar market summary: half of that.
const RANGE_MIDPOINT: f64 = 2.25;
/// A dry, crystalline ingredient (USDA and CIQUAL sugars differ by 0.1 to 0.2 g per 100 g; rounded up).
const DRY: f64 = 0.3;
/// Share by which the soluble solids that a strained dry solid (nuts, spice, dried peel) gives to the liquid may be off:
/// all of them are counted, and grind, time and heat decide how many come out (ours).
const GIVES_DRY: f64 = 0.5;
/// The same of fresh fruit, whose juice comes out with them (ours).
const GIVES_JUICY: f64 = 0.25;
/// From this share of water on a solid is juicy (ours).
const JUICY: f64 = 0.5;

pub(super) struct Differs {
    pub what: String,
    pub cause: Cause,
    /// The share of its half-width that is left once its remedy has been followed; `None` where no remedy is known.
    pub left_by_remedy: Option<f64>,
    /// What changes in one gram at one half-width.
    pub delta: Mixture,
}

pub(super) fn differs(ingredient: &Ingredient, of: &Mixture, instruments: &Instruments) -> Vec<Differs> {
    let name = &ingredient.name;
    let mut all = Vec::new();
    if is_by_definition(ingredient) {
        return all;
    }
    if let Some((solids, cause)) = solids_spread(ingredient, instruments) {
        let read_to = match cause {
            Cause::Composition => Some(instruments.refractometer_brix),
            // Thinned with as much water, so off by twice as much.
            Cause::Solid => Some(2.0 * instruments.refractometer_brix),
            _ => None,
        };
        let left_by_remedy = read_to.map(|step| step / solids).filter(|left| *left < 1.0);
        let delta = richer(of, solids / 100.0);
        all.push(Differs { what: format!("what {name} is made of"), cause, left_by_remedy, delta });
    }
    if let Some(range) = ingredient.sugar_range {
        let by = range.half_width();
        let delta = Mixture::of(&[(Component::Sugars, by), (Component::OtherCarbohydrate, -by)]);
        all.push(Differs { what: format!("the sugar in {name}"), cause: Cause::Sugar, left_by_remedy: None, delta });
    }
    let acid = of.titratable_acid_grams();
    if acid > 0.002 && !of.is_acid() {
        let natural = (NATURAL_ACID / 100.0).min(0.3 * acid);
        let titrated = TITRATED * acid;
        let (by, left_by_remedy) = match ingredient.stated.acid || ingredient.status.evidence == Evidence::Analysis {
            true => (titrated, None),
            false => (natural, Some(titrated / natural).filter(|left| *left < 1.0)),
        };
        let delta = sourer(of, by);
        all.push(Differs { what: format!("the acid of {name}"), cause: Cause::Acid, left_by_remedy, delta });
    }
    if of.grams_of(Component::Ethanol) > 0.0 {
        let what = format!("the label strength of {name}");
        all.push(Differs { what, cause: Cause::Label, left_by_remedy: None, delta: stronger(of) });
    }
    all
}

/// What changes in one gram of a strained ingredient that gives more of its soluble solids to the liquid: they come out
/// of what stays in the strainer. `None` where it has none.
pub(super) fn gives(ingredient: &Ingredient, of: &Mixture) -> Option<Mixture> {
    let mut soluble = of.dissolved();
    for liquid in [Component::Water, Component::Ethanol] {
        soluble.set_grams(liquid, 0.0);
    }
    // What stands as insoluble but for a share has the spread of that share; of an analysis all that dissolves is counted.
    let of_practice = || {
        let solubles =
            ingredient.strained?.solubles.filter(|_| ingredient.status.evidence == Evidence::AssumedInsoluble)?;
        Some(solubles.half_width() / solubles.usual)
    };
    let juicy = of.grams_of(Component::Water) >= JUICY;
    let share = of_practice().unwrap_or(if juicy { GIVES_JUICY } else { GIVES_DRY });
    let stays = of.grams_of_all(&Component::STAYS_IN_STRAINER);
    let by = (share * soluble.total_grams()).min(0.9 * stays);
    (by > 0.0).then(|| soluble * (by / soluble.total_grams()) + Mixture::of(&[(Component::Insoluble, -by)]))
}

/// Pure substances, and what is computed from them.
fn is_by_definition(ingredient: &Ingredient) -> bool {
    matches!(ingredient.status.evidence, Evidence::Definition | Evidence::Computed)
}

/// Half-width of the dissolved solids but its acids, g per 100 g, and why; `None` where there are none.
fn solids_spread(ingredient: &Ingredient, instruments: &Instruments) -> Option<(f64, Cause)> {
    let of = &ingredient.per_gram;
    let evidence = ingredient.status.evidence;
    let solids = of.solids_grams() - of.grams_of_all(&Component::ACIDS);
    let water = of.grams_of(Component::Water);
    let dry = water < 0.05 && of.grams_of(Component::Ethanol) == 0.0;
    // No drop of it can be put on a refractometer; of what does not dissolve, the strained liquid can.
    let unreadable = match ingredient.form {
        Form::Solid if water >= JUICY => Cause::Composition,
        Form::Solid if of.grams_of_all(&Component::STAYS_IN_STRAINER) > DRY / 100.0 => Cause::Gives,
        Form::Solid => Cause::Solid,
        Form::Liquid => Cause::Composition,
    };
    if solids < 0.001 {
        None
    } else if ingredient.stated.brix {
        Some((instruments.refractometer_brix, Cause::Composition))
    } else if evidence == Evidence::RangeMidpoint {
        Some((RANGE_MIDPOINT, unreadable))
    } else if dry || evidence == Evidence::Analysis {
        Some((DRY, if unreadable == Cause::Solid { Cause::Crystals } else { unreadable }))
    } else {
        Some((NATURAL.min(30.0 * solids), unreadable))
    }
}

/// What changes in one gram that has this much more solids, of its own kind, in place of water (fraction of a gram). Its
/// acids, and the minerals that hold them, have a uncertainty of their own.
fn richer(of: &Mixture, by: f64) -> Mixture {
    let water = of.grams_of(Component::Water);
    let mut solids = Mixture::EMPTY;
    for &component in Component::ALL {
        if component.share_in_brix() > 0.0 && !Component::ACIDS.contains(&component) {
            solids.set_grams(component, of.grams_of(component));
        }
    }
    let total = solids.total_grams();
    if total <= 0.0 || water <= 0.0 && by > 0.0 {
        return Mixture::EMPTY;
    }
    let by = by.min(0.9 * water).min(0.9 * total);
    solids * (by / total) + Mixture::of(&[(Component::Water, -by)])
}

/// What changes in one gram with this much more of its acids in place of water.
fn sourer(of: &Mixture, by: f64) -> Mixture {
    let acids = of.grams_of_all(&Component::ACIDS);
    let mut delta = Mixture::of(&[(Component::Water, -by)]);
    for acid in Component::ACIDS {
        delta.set_grams(acid, by * of.grams_of(acid) / acids);
    }
    delta
}

/// What changes in one gram with the strength of a label moved by its tolerance: ethanol in place of water. A gram that
/// is stronger takes up more room, so it takes more ethanol than the tolerance alone: the slope says how much.
fn stronger(of: &Mixture) -> Mixture {
    let trial = 0.001_f64.min(0.5 * of.grams_of(Component::Ethanol)).min(0.5 * of.grams_of(Component::Water));
    let swap = |g: f64| Mixture::of(&[(Component::Ethanol, g), (Component::Water, -g)]);
    let abv = |g: f64| value_of(TargetKind::Abv, &(*of + swap(g)));
    match abv(trial).zip(abv(-trial)) {
        Some((up, down)) if up > down => swap(LABEL_ABV * 2.0 * trial / (up - down)),
        // No water to give way (pure ethanol), or no density: what the tolerance is by mass.
        _ => swap(-LABEL_ABV / 100.0),
    }
}
