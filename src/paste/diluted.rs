//! What makes a thing weaker or sweeter with so much of another as stands nowhere: "dilute 1:1 with water", "couper avec moitié d'eau",
//! "rebajar a la mitad".

use crate::input::key;
use crate::larder::Form;
use crate::units::told::first_told;
use crate::units::{Literal, in_grams, in_millilitres};

use super::amounts::is_size;
use super::beside::is_ratio;
use super::draft::Draft;
use super::filled::filled;
use super::more_in_step::more_again;
use super::names::Names;
use super::share::known;
use super::size_alone::strength_in;
use super::words::WordList;

/// A dilution that a step tells.
pub(super) struct Dilution {
    /// What with.
    pub with: String,
    pub asks: String,
    /// Of what it tells, more than the list has: a share of the batch that the list's own does not make.
    is_share: bool,
}

impl Dilution {
    /// Whether the list may have so much of it: what it has, and no other share than that makes.
    pub fn is_of_list(&self, clause: &str, draft: &Draft, names: Names<'_>) -> bool {
        let parts = || draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
        let is_it = |of: &str| names.same(of, &self.with);
        let is_listed = parts().any(|part| is_it(part.of()) && (draft.is_typed || part.amount.is_some()));
        let size = |amount: &str| match names.reads(amount) {
            Ok(Literal::Mass(mass)) => Some(in_grams(mass)),
            Ok(Literal::Volume(volume)) => Some(in_millilitres(volume)),
            _ => None,
        };
        let sum = |of_it: bool| -> Option<f64> {
            parts().filter(|part| is_it(part.of()) == of_it).map(|part| size(part.amount.as_deref()?)).sum()
        };
        // ml and g are one here: it tells half from a third, and no more
        let is_so = |share: f64| {
            let (Some(own), Some(rest)) = (sum(true), sum(false)) else { return true };
            rest > 0.0 && [share, 1.0 / share].iter().any(|share| (own / rest / share - 1.0).abs() < NEAR)
        };
        let is_open = WordList::Vague.is_said_in(clause) && self.with == WATER && draft.is_typed;
        is_listed && !is_open && !more_again(clause) && (!self.is_share || is_so(told_share(clause)))
    }
}

/// A share that a list makes is met to so much, as a part of it (ours).
const NEAR: f64 = 0.15;

/// "1:3" of water; by half, as much again.
fn told_share(clause: &str) -> f64 {
    let ratio = clause.split(' ').find_map(|word| {
        let (of, to) = word.trim_matches(|c: char| !c.is_ascii_digit()).split_once(':')?;
        Some(of.parse::<f64>().ok()? / to.parse::<f64>().ok()?)
    });
    ratio.filter(|share| share.is_finite() && *share > 0.0).unwrap_or(1.0)
}

/// What a clause makes weaker or sweeter; what fills up to a size or a strength is read elsewhere.
pub(super) fn diluted(clause: &str, names: Names<'_>) -> Option<Dilution> {
    let words: Vec<&str> = clause.split_whitespace().collect();
    let is_size = first_told(&words, |literal| is_size(literal).then_some(())).is_some();
    // "dilute to 30 % with water" is a strength
    // and what is let down to be drunk is let down in the glass
    let in_glass = WordList::ToDrink.is_said_in(clause);
    if is_size || in_glass || strength_in(&words, names).is_some() {
        return None;
    }
    let has_ratio = words.iter().any(|word| is_ratio(word));
    let by_half = WordList::Half.within(clause);
    let dilutes = WordList::Diluted.within(clause);
    let found = |with: String| {
        let asks = format!("how much of it is that? in a line of its own: {} = \"… ml\"", key(&with));
        Dilution { with, asks, is_share: has_ratio || by_half }
    };
    // "cut 3:1 with water" is asked as a ratio
    let cuts = || WordList::Cut.within(clause) && !has_ratio;
    let named = |behind: usize, is_it: &dyn Fn(&String) -> bool| {
        (behind..words.len()).find_map(|at| known(words.get(at..)?, names).filter(|name| is_it(name)))
    };
    if dilutes {
        let told = filled(clause, names).is_none();
        // "dilute a little", "um die Hälfte strecken"
        let of_no_name = || (by_half || WordList::Vague.is_said_in(clause)).then(|| WATER.to_owned());
        return named(0, &|_| true).or_else(of_no_name).filter(|_| told).map(found);
    }
    let sweetens = WordList::Sweetened.within(clause);
    let with = words.iter().position(|word| WordList::RinsedWith.has(word));
    let is_liquid =
        |name: &String| names.house.larder.find(name).is_some_and(|known| known.form == Form::Liquid || sweetens);
    with.filter(|_| sweetens && !has_ratio || cuts()).and_then(|with| named(with + 1, &is_liquid)).map(found)
}

/// What it is made weaker with where nobody says what.
const WATER: &str = "water";
