//! What is boiled as far as a number or a sign says: "cook to 110 °C", "until it reads 70 Brix", "to the soft ball". Water left the pan
//! until then, and no amount says how much.

use crate::mixture::{Component, Mixture, boiling};
use crate::units::spans::{SpanEnd, time};
use crate::units::told::{Clause, clauses, first_told};
use crate::units::{Literal, degrees_celsius};

use super::boiled_down::{is_heated, steamed_off};
use super::degrees::degrees;
use super::draft::Remark;
use super::heated::denies;
use super::names::Names;
use super::words::WordList;

/// Hotter than this, °C, no pan with much water in it gets; above the second sugar browns, and its water is gone (ours).
const ABOVE_WATER_C: f64 = 101.5;
const BROWNS_C: f64 = 150.0;

/// What to ask of a clause that boils something so far, told in the clauses of its step.
pub(super) fn boiled_to(step: &[Clause<'_>], at: usize, names: Names<'_>) -> Option<Remark> {
    let clause = step.get(at).filter(|clause| !denies(clause.text))?;
    if WordList::SugarStage.is_said_in(clause.text) {
        return Some(steamed_off(clause));
    }
    // a sign, or a number: any other clause needs no more reading
    let is_end = clause.text.contains(|c: char| c.is_ascii_digit()) || WordList::Until.within(clause.text);
    let is_hot = || step.iter().take(at + 1).any(|clause| is_heated(clause.text));
    if !is_end || !is_hot() || WordList::Roasted.within(clause.text) || WordList::Bath.is_said_in(clause.text) {
        return None;
    }
    let brix = |literal| if let Literal::Brix(brix) = literal { Some(brix) } else { None };
    // "check that it reads 50 Brix" boils nothing down
    let is_end = is_heated(clause.text) || WordList::Until.within(clause.text);
    if let Some((_, brix)) = first_told(&clause.words, brix).filter(|_| is_end) {
        return Some(ending_at(clause, &format!("{brix}")));
    }
    let is_sign = WordList::Until.within(clause.text)
        && (WordList::BoilingSign.is_said_in(clause.text) || WordList::Thick.within(clause.text));
    if is_sign {
        return Some(steamed_off(clause));
    }
    let told = degrees(clause, names).and_then(|told| told.celsius());
    let hot = told.filter(|hot| (ABOVE_WATER_C..BROWNS_C).contains(hot))?;
    Some(brix_at(hot, names).map_or_else(|| steamed_off(clause), |brix| ending_at(clause, &brix.to_string())))
}

/// The same, with the Brix that finds it.
fn ending_at(clause: &Clause<'_>, brix: &str) -> Remark {
    match steamed_off(clause) {
        Remark::Question(asks) => Remark::Question(format!(
            "{asks}; or, where it is sugar and water and nothing goes in behind it, brix = {brix} under [target] and evaporated = \
             \"as needed\""
        )),
        other => other,
    }
}

/// At how many °Bx sugar in water boils so hot, at the height of the house; nothing beyond 80 °Bx, to which that is known.
fn brix_at(hot_c: f64, names: Names<'_>) -> Option<u32> {
    let height = names.house.settings.altitude.unwrap_or_default();
    let air = boiling::pressure_at_altitude(height).ok()?.value;
    let boils_c = |brix: u32| {
        let syrup = Mixture::of(&[(Component::Sucrose, f64::from(brix)), (Component::Water, f64::from(100 - brix))]);
        syrup.boiling_point(air).ok().map(|at| degrees_celsius(at.value))
    };
    (LEAST_BRIX..=MOST_BRIX).find(|brix| boils_c(*brix).is_some_and(|at| at >= hot_c))
}

const LEAST_BRIX: u32 = 40;
const MOST_BRIX: u32 = 80;

/// Whether a step lets something boil or simmer.
pub(crate) fn boils(step: &str) -> bool {
    let boils = |text: &str| [WordList::Boil, WordList::Simmer, WordList::Reduce].iter().any(|list| list.within(text));
    clauses(step).iter().any(|clause| boils(clause.text) && !denies(clause.text))
}

/// How many minutes a step says, at the most.
pub(crate) fn minutes_told(step: &str) -> Option<f64> {
    const IN_MINUTES: f64 = 60.0;
    let told = clauses(step).into_iter().filter_map(|clause| time(&clause.words, SpanEnd::Most));
    told.map(|told| told.seconds / IN_MINUTES).reduce(f64::max)
}
