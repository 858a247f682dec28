//! What the instruments of a bench tell: readings at their own temperature to true values at 20 °C.
//!
//! Each value carries an uncertainty, a half-width at 95 %: what the instrument tells apart and what the equations
//! are good for, added as squares (JCGM 100:2008, first order). What one reading alone cannot tell (sugar from
//! alcohol) is refused, with what to measure besides.
//!
//! - `measured`: hydrometers and a weighed volume, as a density.
//! - `plain`: a liquid that holds sugar or alcohol, not both.
//! - `sweet`: both at once, from two facts.
//! - `acid`: pH and titration; [`ph_reading`]: what a pH that was read is worth.

pub(crate) mod acid;
pub(crate) mod measured;
pub mod ph_reading;
pub(crate) mod plain;
pub(crate) mod readings;
pub(crate) mod sweet;
mod told;

use crate::diagnostic::{Code, Diagnostic};
use crate::mixture::refraction;
use crate::units::{Brix, degrees_celsius};

pub use readings::{Density, InstrumentUncertainty, LiquidKind, PhReading, Readings, Titration};
pub use told::Told;

use sweet::{FactKind, SweetFact};
use told::{Refused, out_of_range, refuse};

/// Everything that the readings tell; what they cannot tell is left out, with a diagnostic that says why.
pub fn tell(readings: &Readings, uncertainties: &InstrumentUncertainty) -> Told {
    let mut told = Told::default();
    if !degrees_celsius(readings.temperature).is_finite() {
        told.say(
            Diagnostic::error(Code::OutOfRange, "the temperature is not a number").help("write for example --at 25C"),
        );
        return told;
    }
    let nothing = readings.refractometer.is_none()
        && readings.density.is_none()
        && readings.ph.is_none()
        && readings.titration.is_none();
    if nothing {
        told.say(
            Diagnostic::error(Code::NeedsAnother, "there is no reading to work from").help(
                "give what an instrument shows: --refractometer, --sg, --alcoholometer, --weight, --ph or --titre",
            ),
        );
        return told;
    }
    if let Err(why) = liquid(readings, uncertainties, &mut told) {
        told.say(*why);
    }
    if let Err(why) = acid::tell(readings, uncertainties, &mut told) {
        told.say(*why);
    }
    told
}

fn liquid(r: &Readings, uncertainties: &InstrumentUncertainty, told: &mut Told) -> Result<(), Refused> {
    let density = match &r.density {
        Some(shown) => Some(measured::density(shown, r.calibrated, r.temperature, uncertainties)?),
        None => None,
    };
    told.measured_density = density;
    let reading = r.refractometer.map(|shown| index_fact(r, shown, uncertainties)).transpose()?;
    let strength =
        r.abv.map(|abv| SweetFact { known: FactKind::Strength, value: abv.get(), uncertainty: uncertainties.abv });
    // No alcohol is as good as saying that it is a syrup.
    let dry = r.abv.is_some_and(|abv| abv.get() == 0.0);
    let kind = if dry { Some(LiquidKind::Syrup) } else { r.of };
    match (kind, reading, density, strength.filter(|_| !dry)) {
        (_, None, None, _) => Ok(()),
        (Some(LiquidKind::Syrup), Some(_), Some(density), _) => plain::syrup_by_both(r, density, uncertainties, told),
        (Some(LiquidKind::Syrup) | None, Some(_), None, None) => plain::syrup_by_refractometer(r, uncertainties, told),
        (Some(LiquidKind::Syrup), None, Some(density), _) => plain::syrup_by_density(r, density, told),
        (Some(LiquidKind::Spirit), None, Some(density), None) => plain::spirit(r, density, told),
        (None, None, Some(density), None) => match r.density {
            Some(Density::Alcohol(_) | Density::Proof(_)) => plain::spirit(r, density, told),
            Some(Density::Brix(_) | Density::Weighed { .. }) => plain::syrup_by_density(r, density, told),
            _ => alone("a hydrometer alone cannot tell sugar from alcohol", true),
        },
        (_, None, Some(_), None) => alone("a hydrometer alone cannot tell sugar from alcohol", false),
        (_, Some(_), None, None) => alone("a refractometer alone cannot tell sugar from alcohol", false),
        (_, Some(reading), Some(density), None) => sweet::tell(r, SweetFact::density(density), reading, told),
        (_, Some(reading), None, Some(strength)) => sweet::tell(r, strength, reading, told),
        (_, None, Some(density), Some(strength)) => sweet::tell(r, strength, SweetFact::density(density), told),
        (_, Some(reading), Some(density), Some(strength)) => {
            sweet::tell(r, strength, reading, told)?;
            sweet::check(r, SweetFact::density(density), reading, strength, told)
        }
    }
}

fn alone(title: &str, may_be_plain: bool) -> Result<(), Refused> {
    let plain = if may_be_plain {
        "say what it is, --of syrup (no alcohol) or --of spirit (no sugar); for both at once "
    } else {
        "for both at once "
    };
    refuse(
        Code::NeedsAnother,
        title,
        format!("{plain}give a refractometer (--refractometer) and a hydrometer (--sg), or the strength (--abv)"),
    )
}

/// A refractometer reading as the refractive index at its temperature. The scale is that of sucrose at 20 °C; an
/// instrument that compensates shows the sucrose solution with the same index at its own temperature.
fn index_fact(r: &Readings, shown: Brix, uncertainties: &InstrumentUncertainty) -> Result<SweetFact, Refused> {
    let scale = if r.compensated { r.temperature } else { readings::standard_temperature() };
    let index = |brix: f64| {
        refraction::sucrose_solution(Brix::saturating(brix), scale).map(|index| index.value).map_err(|why| {
            out_of_range(
                &why,
                "thin it 1:1 by weight with water, read again, and reckon back: twice the solids, half the mass",
            )
        })
    };
    let (low, value) = (index(shown.get() - uncertainties.refractometer_brix)?, index(shown.get())?);
    // Downwards the scale ends at zero; its slope is nearly the same on both sides.
    let up = index((shown.get() + uncertainties.refractometer_brix).min(85.0))? - value;
    Ok(SweetFact { known: FactKind::Index, value, uncertainty: up.max(value - low) })
}
