//! What a class of product must be by law to bear its name. Laws differ and change: each finding says so.

use crate::diagnostic::{Code, Diagnostic};
use crate::formula::{Formula, TargetKind};
use crate::mixture::Component;
use crate::solve::Solved;
use crate::solve::balance::value_of;

/// Least strength of a liqueur, % vol: Reg (EC) 110/2008 Annex II cat. 32(b); Reg (EU) 2019/787 Annex I
/// cat. 33 has the same figure (`from memory`).
const LIQUEUR_MIN_ABV: f64 = 15.0;
/// Least sugar of a liqueur, g/L as invert sugar: Reg (EC) 110/2008 Annex II cat. 32(a)(i).
const LIQUEUR_MIN_SUGAR_G_L: f64 = 100.0;
/// Invert sugar from sucrose by mass: molar masses 360.31/342.30 g/mol.
const SUCROSE_TO_INVERT: f64 = 1.0526;

/// Whether a liqueur may be called one.
pub fn of_class(card: &Formula, solved: &Solved) -> Vec<Diagnostic> {
    let Some(class) = card.class.as_ref().filter(|c| c.value.eq_ignore_ascii_case("liqueur")) else {
        return Vec::new();
    };
    let liquid = solved.bottled();
    let (Some(abv), Some(sugar)) = (value_of(TargetKind::Abv, liquid), value_of(TargetKind::Sugar, liquid)) else {
        return Vec::new();
    };
    let disaccharides = liquid.grams_of(Component::Sucrose) / liquid.sugar_grams().max(f64::MIN_POSITIVE);
    let as_invert = sugar * (1.0 + (SUCROSE_TO_INVERT - 1.0) * disaccharides);
    let mut found = Vec::new();
    let mut below = |said: String| {
        found.push(
            Diagnostic::warning(Code::BelowLegalMinimum, said)
                .in_file(&card.file)
                .at(class.span, "EU and UK law ask more of a liqueur")
                .help("Reg (EC) 110/2008 Annex II category 32, today Reg (EU) 2019/787 Annex I category 33; check your local rule, or call it something else"),
        );
    };
    if abv < LIQUEUR_MIN_ABV {
        below(format!("this computes to {abv:.1} % ABV; a liqueur has at least {LIQUEUR_MIN_ABV:.0} %"));
    }
    if as_invert < LIQUEUR_MIN_SUGAR_G_L {
        below(format!(
            "this computes to {as_invert:.0} g/L sugar as invert sugar; a liqueur has at least {LIQUEUR_MIN_SUGAR_G_L:.0} g/L"
        ));
    }
    found
}
