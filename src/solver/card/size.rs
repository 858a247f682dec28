//! How large the batch becomes, and whether that is what the card says.

use crate::card::{Amount, Card, Makes};
use crate::spelling::fold;
use crate::units::{in_grams, in_millilitres};

use super::super::error::{NotOnCard, SolveError};
use super::super::explain::yield_differs;
use super::super::target::volume_ml;
use super::super::vessel::HEADROOM;
use super::super::{Solved, SolvedPart};
use super::cook::Cook;
use super::options::{BatchSize, Options, asked_ml};

impl Cook<'_> {
    /// Where the amounts alone give a size and the card states one too: do they agree?
    pub(super) fn compare_yield(&mut self, card: &Card, solved: &Solved, options: &Options) {
        if options.size.is_some() && card.makes.is_none() {
            return;
        }
        let Some(makes) = &card.makes else { return };
        let (asked, gives, unit) = match makes.value {
            Makes::Mass(m) => (in_grams(m), solved.bottled().total_grams(), "g"),
            other => match volume_ml(solved.bottled()).filter(|_| !solved.bottled().is_dry()) {
                Some(ml) => (asked_ml(&other), ml, "ml"),
                None => return self.refuse(card, SolveError::Dry(makes.span)),
            },
        };
        self.found.extend(yield_differs(makes.span, asked, gives, unit));
    }

    /// Brings the batch to the size that is asked for.
    pub(super) fn sized(&mut self, card: &Card, solved: Solved, options: &Options) -> Option<Solved> {
        let Some(size) = &options.size else { return Some(solved) };
        match factor(&solved, size) {
            Ok(factor) => Some(solved.scaled(factor)),
            Err(error) => {
                self.refuse(card, error);
                None
            }
        }
    }
}

fn factor(solved: &Solved, size: &BatchSize) -> Result<f64, SolveError> {
    let factor = match size {
        BatchSize::Makes(Makes::Mass(mass)) => in_grams(*mass) / solved.bottled().total_grams(),
        BatchSize::Makes(other) => asked_ml(other) / volume_ml(solved.bottled()).ok_or(SolveError::NoVolume)?,
        BatchSize::Pot(pot) => in_millilitres(*pot) / 1000.0 / (HEADROOM * solved.fullest_l()),
        BatchSize::From(name, amount) => factor_from(solved, name, amount)?,
    };
    if factor.is_finite() && factor > 0.0 { Ok(factor) } else { Err(SolveError::NoVolume) }
}

fn factor_from(solved: &Solved, name: &str, amount: &Amount) -> Result<f64, SolveError> {
    let all = || solved.stages.iter().flat_map(|s| &s.parts);
    let is_it = |p: &&SolvedPart| [&p.label, &p.of].iter().any(|own| fold(own) == fold(name));
    let used: f64 = all().filter(is_it).map(|p| p.mass_g).sum();
    let Some(first) = all().find(is_it).filter(|_| used > 0.0) else {
        let parts = all().map(|p| p.label.clone()).collect();
        return Err(SolveError::NotOnCard(NotOnCard { name: name.to_owned(), parts }));
    };
    let have_g = match amount {
        Amount::Mass(m) => Some(in_grams(*m)),
        Amount::Volume(v) => first.found.g_per_ml.map(|d| in_millilitres(*v) * d),
        _ => None,
    };
    have_g.map(|have_g| have_g / used).ok_or_else(|| SolveError::NotAnAmount(name.to_owned()))
}
