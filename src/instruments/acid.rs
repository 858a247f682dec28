//! pH and titratable acid.

use crate::diagnostic::{Code, Diagnostic};
use crate::mixture::Estimate;
use crate::mixture::acidity::acids::{Acid, CITRIC};
use crate::mixture::acidity::titration::from_titre;
use crate::units::{NumberRange, Ph, in_grams_per_litre, in_millilitres, kg_per_m3};

use super::measured::plain;
use super::readings::{InstrumentUncertainty, PhReading, Readings, Titration};
use super::told::{AcidTold, PhTold, Refused, Told, refuse};

/// What a strip may be off: `common practice, no source`.
pub(crate) const STRIP: f64 = 0.5;
/// How much higher a syrup of 60 % sugar reads when thinned 1:1 by weight: a juice-buffered cordial 0.1 to 0.15, a pure
/// acid syrup up to this (computed by charge balance).
pub(crate) const DILUTED_HIGH: f64 = 0.3;
/// What a meter set in water is off in spirit, at 40 % vol: `from memory`.
const IN_SPIRIT: f64 = 0.2;
/// Above this a pH has no meaning that a meter would show.
const MOST_ABV: f64 = 45.0;
/// What a pH of something to drink is.
const PH: std::ops::RangeInclusive<f64> = 1.0..=9.0;
/// Equivalents in a litre (common practice, no source).
const NORMALITIES: NumberRange = NumberRange::above(0.0, 10.0, "N");
/// Where titrations of drinks are stopped: 7.0 (wine: OIV-MA-AS313-01; IFU method 3 as malic or tartaric), 8.1 (fruit juice
/// as citric: IFU method 3; ISO 750 from memory), 8.2 (phenolphthalein, common practice) to 8.5 (phenolphthalein as it turns
/// in orange juice, Sinclair 1945).
const ENDPOINTS: std::ops::RangeInclusive<f64> = 6.9..=8.5;
/// A burette or pipette, millilitres: `common practice, no source`.
const GLASS_ML: f64 = 0.1;
/// Strength of the base, relative: `common practice, no source`.
const BASE: f64 = 0.01;

pub(super) fn tell(r: &Readings, uncertainties: &InstrumentUncertainty, told: &mut Told) -> Result<(), Refused> {
    let titrated = r.titration.as_ref().map(titration).transpose();
    let ph = r.ph.map(|shown| ph(shown, r, uncertainties, told)).transpose();
    told.acid = titrated?;
    told.ph = ph?;
    Ok(())
}

fn ph(
    shown: PhReading,
    r: &Readings,
    uncertainties: &InstrumentUncertainty,
    told: &mut Told,
) -> Result<PhTold, Refused> {
    let (PhReading::Meter(value) | PhReading::Diluted(value) | PhReading::Strip(value)) = shown;
    if !PH.contains(&value) {
        let title = format!("pH {value} lies outside {} to {}", PH.start(), PH.end());
        let help = match shown {
            PhReading::Strip(_) => "hold a new strip beside its colours and read again",
            _ => "calibrate the meter in buffers of 4 and 7 and read again",
        };
        return refuse(Code::OutOfRange, title, help);
    }
    let abv = r.abv.map(|abv| abv.get()).or(told.abv.map(|abv| abv.value.get())).unwrap_or(0.0);
    if abv > MOST_ABV {
        let title = format!("at {abv:.0} % vol a pH has no meaning that a meter would show");
        return refuse(
            Code::OutOfRange,
            title,
            "measure the acid by titration (--titre), or before the spirit goes in",
        );
    }
    let spirit = if abv > 0.5 { IN_SPIRIT } else { 0.0 };
    let (below, above, clears_limits) = match shown {
        PhReading::Meter(_) => (uncertainties.ph_meter, uncertainties.ph_meter, true),
        PhReading::Diluted(_) => (uncertainties.ph_meter + DILUTED_HIGH, uncertainties.ph_meter, true),
        PhReading::Strip(_) => (STRIP, STRIP, false),
    };
    if spirit > 0.0 {
        told.say(Diagnostic::note(Code::PhCaution, "a meter set in water is off by 0.1 to 0.2 in spirit: counted in"));
    }
    match shown {
        PhReading::Meter(_) if told.brix.is_some_and(|brix| brix.value.get() > 20.0) => told.say(
            Diagnostic::note(Code::PhCaution, "a meter may be off in a thick syrup")
                .help("thin it 1:1 by weight with distilled water, read again, and say --diluted"),
        ),
        PhReading::Meter(_) => {}
        PhReading::Diluted(_) => told.say(
            Diagnostic::warning(
                Code::PhCaution,
                "thinned 1:1 a cordial reads 0.1 to 0.15 high, a syrup of pure acid up to 0.3: the acids are not known, so the true pH may be that much lower",
            )
            .help("a limit is held against the reading as it stands: the true pH is not higher"),
        ),
        PhReading::Strip(_) => told.say(
            Diagnostic::warning(Code::PhCaution, "a test strip is good for 0.5 and never clears a limit")
                .help("use a meter, calibrated in buffers of 4 and 7, before a product rests on its acidity"),
        ),
    }
    Ok(PhTold {
        value: Ph::saturating(value),
        low: Ph::saturating(value - below - spirit),
        high: Ph::saturating(value + above + spirit),
        clears_limits,
    })
}

fn titration(t: &Titration) -> Result<AcidTold, Refused> {
    let [titre, sample] = [t.titre, t.sample].map(|volume| plain(in_millilitres(volume)));
    if !(titre.is_finite() && titre >= 0.0 && sample.is_finite() && sample > 0.0) {
        let title = format!("a titre of {titre} ml on a sample of {sample} ml tells nothing");
        return refuse(Code::OutOfRange, title, "give both in ml: --titre 12ml --sample 15ml");
    }
    if !NORMALITIES.holds(t.normality) {
        let expected = NORMALITIES.expected();
        let title = format!("a base of {} equivalents in a litre is not used for titration; {expected}", t.normality);
        return refuse(Code::OutOfRange, title, "0.1 N is usual: --normality 0.1");
    }
    if !ENDPOINTS.contains(&t.endpoint.get()) {
        let (least, most) = (ENDPOINTS.start(), ENDPOINTS.end());
        let title =
            format!("pH {} is no endpoint for titratable acid; {least} to {most} was expected", t.endpoint.get());
        return refuse(Code::OutOfRange, title, "8.1 for juice (IFU 3), 7.0 for wine (OIV), 8.2 for phenolphthalein");
    }
    let told_as = |acid: &Acid| {
        let Some(found) = from_titre(t.sample, t.normality, t.titre, acid) else {
            return refuse(Code::OutOfRange, "the titration gives no number", "check titre, sample and normality");
        };
        // The smallest titre is off by the burette alone, so that is not taken relative to it.
        let g_l = in_grams_per_litre(found);
        let for_each_ml = acid.grams_per_equivalent() * t.normality / sample;
        let error = (for_each_ml * GLASS_ML).hypot(g_l * GLASS_ML / sample).hypot(g_l * BASE);
        Ok(Estimate::new(found, kg_per_m3(error)))
    };
    Ok(AcidTold { as_citric: told_as(&CITRIC)?, named: t.as_acid, as_named: told_as(t.as_acid)?, endpoint: t.endpoint })
}
