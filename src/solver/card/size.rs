//! How large the batch becomes, and whether that is what the card says.

use crate::card::{self, Card, Makes};
use crate::diagnostic::{Code, Diagnostic};
use crate::mixture::Mixture;
use crate::spelling::{fold, nearest};
use crate::units::{celsius, in_grams, in_kg_per_m3, in_millilitres};

use super::super::balance::Yield;
use super::super::{HEADROOM, Solved, SolvedPart, explain};
use super::{BatchSize, Cook, Options};

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
                None => return self.found.push(explain::dry(makes.span)),
            },
        };
        self.found.extend(explain::yield_differs(makes.span, asked, gives, unit));
    }

    /// Brings the batch to the size that is asked for.
    pub(super) fn sized(&mut self, card: &Card, solved: Solved, options: &Options) -> Option<Solved> {
        let factor = match &options.size {
            None => 1.0,
            Some(BatchSize::Makes(Makes::Mass(mass))) => in_grams(*mass) / solved.bottled().total_grams(),
            Some(BatchSize::Makes(other)) => match volume_ml(solved.bottled()) {
                Some(ml) => asked_ml(other) / ml,
                None => {
                    self.found.push(explain::no_volume(card.name.span));
                    return None;
                }
            },
            Some(BatchSize::Pot(pot)) => in_millilitres(*pot) / 1000.0 / (HEADROOM * solved.fullest_l()),
            Some(BatchSize::From(name, amount)) => self.factor_from(card, &solved, name, amount)?,
        };
        if !(factor.is_finite() && factor > 0.0) {
            self.found.push(explain::no_volume(card.name.span));
            return None;
        }
        Some(solved.scaled(factor))
    }

    fn factor_from(&mut self, card: &Card, solved: &Solved, name: &str, amount: &card::Amount) -> Option<f64> {
        let parts: Vec<&SolvedPart> = solved
            .stages
            .iter()
            .flat_map(|s| &s.parts)
            .filter(|p| [&p.label, &p.of].iter().any(|own| fold(own) == fold(name)))
            .collect();
        let used: f64 = parts.iter().map(|p| p.mass_g).sum();
        let Some(first) = parts.first().filter(|_| used > 0.0) else {
            let names = solved.stages.iter().flat_map(|s| &s.parts).map(|p| p.label.as_str());
            let near = nearest(name, names.clone());
            let listed: Vec<_> = names.collect();
            self.found.push(
                Diagnostic::error(Code::UnknownIngredient, format!("the card uses no `{name}`"))
                    .at(card.name.span, "this card")
                    .help(near.map_or_else(
                        || format!("its parts are: {}", listed.join(", ")),
                        |n| format!("did you mean `{n}`?"),
                    )),
            );
            return None;
        };
        let have_g = match amount {
            card::Amount::Mass(m) => Some(in_grams(*m)),
            card::Amount::Volume(v) => first.found.g_per_ml.map(|d| in_millilitres(*v) * d),
            _ => None,
        };
        if have_g.is_none() {
            self.found.push(
                Diagnostic::error(
                    Code::WrongDimension,
                    format!("how much `{name}` there is must be a weight or a volume"),
                )
                .at(card.name.span, "this card")
                .help("write for example --from \"white sugar=3 kg\""),
            );
        }
        Some(have_g? / used)
    }
}

/// The millilitres at 20 °C of what is asked for; 0 for a mass.
pub fn asked_ml(makes: &Makes) -> f64 {
    match makes {
        Makes::Volume(v) => in_millilitres(*v),
        Makes::Bottles { count, each } => count * in_millilitres(*each),
        Makes::Mass(_) => 0.0,
    }
}

pub(super) fn yield_of(makes: &Makes) -> Yield {
    match makes {
        Makes::Mass(m) => Yield::Grams(in_grams(*m)),
        other => Yield::Millilitres(asked_ml(other)),
    }
}

/// Millilitres at 20 °C of a liquid, where its density can be computed.
pub fn volume_ml(liquid: &Mixture) -> Option<f64> {
    let density = liquid.density(celsius(20.0)).ok()?;
    Some(liquid.total_grams() / in_kg_per_m3(density.value) * 1000.0)
}
