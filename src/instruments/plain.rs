//! Syrups without alcohol and spirits without sugar: one reading is enough.

use crate::diagnostic::{Code, Diagnostic};
use crate::mixture::root::bracketed;
use crate::mixture::solubility::sucrose_saturation;
use crate::mixture::{Component, Estimate, Mixture, OutOfRange, alcohol, density, refraction, sweetness};
use crate::units::display::temperature_text;
use crate::units::{Abv, Brix, MassDensity, MassFraction, Temperature, in_kg_per_m3, kg_per_m3};

use super::readings::{Density, InstrumentUncertainty, LiquidKind, Readings, standard_temperature};
use super::told::{Refused, Told, out_of_range, refuse};

/// Error of the density of spirit, kg/m³ (OIML R 22 against the US Bureau of Standards, 1913).
const SPIRIT_KG_M3: f64 = 0.12;
/// Error of the Brix of a reading that the instrument has corrected itself: as the corrections by table.
const COMPENSATED_BRIX: f64 = 0.15;

/// The true Brix of a refractometer reading at its temperature, instrument and equation together.
///
/// An instrument without compensation: [`refraction::correct_reading`]. One with: its reading. With the acid of a juice
/// known, `+ 0.012 + 0.193 A - 0.0004 A²`, A the percent of anhydrous citric acid (Stevens and Baier 1939, `from memory`).
/// A reading that would be below nothing by less than the instrument tells is nothing.
pub(crate) fn true_brix(
    r: &Readings,
    shown: Brix,
    uncertainties: &InstrumentUncertainty,
) -> Result<Estimate<Brix>, OutOfRange> {
    let step = uncertainties.refractometer_brix;
    let corrected = if r.compensated {
        // refuses what is off the scale
        refraction::sucrose_solution(shown, r.temperature)?;
        let error = if r.temperature == standard_temperature() { 0.05 } else { COMPENSATED_BRIX };
        Estimate::new(shown, Brix::saturating(error))
    } else {
        let nearly = Brix::saturating(shown.get() + step);
        refraction::correct_reading(shown, r.temperature).or_else(|why| {
            let nothing = refraction::correct_reading(nearly, r.temperature).map_err(|_| why)?;
            Ok(Estimate { value: Brix::saturating(0.0), ..nothing })
        })?
    };
    let acid = r.acid.map_or(0.0, |share| {
        let a = 100.0 * share.get();
        0.012 + 0.193 * a - 0.0004 * a * a
    });
    Ok(Estimate {
        value: Brix::saturating(corrected.value.get() + acid),
        error: Brix::saturating(corrected.error.get().hypot(step)),
        extrapolated: corrected.extrapolated,
    })
}

pub(super) fn syrup_by_refractometer(
    r: &Readings,
    uncertainties: &InstrumentUncertainty,
    told: &mut Told,
) -> Result<(), Refused> {
    let Some(shown) = r.refractometer else { return Ok(()) };
    let brix = true_brix(r, shown, uncertainties).map_err(|why| {
        out_of_range(
            &why,
            "above the scale, thin it 1:1 by weight with water; below, set the zero with water at this temperature; \
             give --atc if the instrument compensates",
        )
    })?;
    let target = refraction::sucrose_solution(brix.value, standard_temperature()).map(|n| n.value);
    let invert =
        target.ok().and_then(|n| if_invert(|m| Some(m.refractive_index(standard_temperature()).ok()?.value), n));
    syrup(r, brix, invert, told)
}

pub(super) fn syrup_by_density(r: &Readings, measured: Estimate<MassDensity>, told: &mut Told) -> Result<(), Refused> {
    let brix = brix_of(r, measured)?;
    let target = density_at_20(brix.value.get()).map(|rho| rho.value);
    let invert = target.and_then(|rho| {
        let of = |m: &Mixture| Some(in_kg_per_m3(m.density(standard_temperature()).ok()?.value));
        if_invert(of, in_kg_per_m3(rho))
    });
    syrup(r, brix, invert, told)
}

/// A syrup of which both were read: the refractometer tells it, the density must not contradict.
pub(super) fn syrup_by_both(
    r: &Readings,
    measured: Estimate<MassDensity>,
    uncertainties: &InstrumentUncertainty,
    told: &mut Told,
) -> Result<(), Refused> {
    let by_density = brix_of(r, measured)?;
    syrup_by_refractometer(r, uncertainties, told)?;
    let Some(brix) = told.brix else { return Ok(()) };
    let apart = (brix.value.get() - by_density.value.get()).abs();
    if apart > brix.error.get().hypot(by_density.error.get()) {
        told.say(
            Diagnostic::warning(
                Code::ReadingsContradict,
                format!(
                    "the refractometer says {:.1} °Bx, the density {:.1} °Bx: they contradict each other for a syrup",
                    brix.value.get(),
                    by_density.value.get()
                ),
            )
            .help(
                "alcohol makes the refractometer the higher one (leave out --of syrup and --abv 0); \
                 invert sugar and acid make it the lower one by up to 1 °Bx; else a reading or a temperature is off",
            ),
        );
    }
    Ok(())
}

fn brix_of(r: &Readings, measured: Estimate<MassDensity>) -> Result<Estimate<Brix>, Refused> {
    let (rho, off) = (in_kg_per_m3(measured.value), in_kg_per_m3(measured.error));
    let at = |rho: f64| sweetness::brix_of_density(kg_per_m3(rho), r.temperature);
    let help = "lighter than water holds alcohol: --of spirit, or add --refractometer or --abv; else check the temperature (--at)";
    let water = density::water(r.temperature).map_err(|why| out_of_range(&why, help))?;
    let water = in_kg_per_m3(water.value);
    if rho < water - off {
        let title = format!("{rho:.1} kg/m³ is lighter than water ({water:.1}): it cannot be a syrup");
        return refuse(Code::OutOfRange, title, help);
    }
    let brix =
        at(rho.max(water)).map_err(|why| out_of_range(&why, "thin it 1:1 by weight with water and read again"))?;
    let slope = (brix.value.get() - at((rho - off).max(water)).map_or(0.0, |b| b.value.get())).abs();
    let slope = slope.max(at(rho + off).map_or(0.0, |b| (b.value.get() - brix.value.get()).abs()));
    Ok(Estimate { error: Brix::saturating(brix.error.get().hypot(slope)), ..brix })
}

fn density_at_20(brix: f64) -> Option<Estimate<MassDensity>> {
    density::sucrose_solution(MassFraction::saturating(brix / 100.0), standard_temperature()).ok()
}

fn syrup(r: &Readings, brix: Estimate<Brix>, invert: Option<Brix>, told: &mut Told) -> Result<(), Refused> {
    let (value, off) = (brix.value.get(), brix.error.get());
    let acid = r.acid.map_or(0.0, |share| 100.0 * share.get());
    if acid > value {
        let title = format!("{acid:.1} % of acid is more than all dissolved solids, {value:.1} °Bx");
        return refuse(Code::ReadingsContradict, title, "--acid is grams of anhydrous citric acid in 100 g");
    }
    let rho_of = |brix: f64| density_at_20(brix.clamp(0.0, 100.0)).map(|rho| in_kg_per_m3(rho.value));
    let sugar_of = |brix: f64| Some((brix - acid).max(0.0) / 100.0 * rho_of(brix)?);
    let spread = |f: &dyn Fn(f64) -> Option<f64>| Some((f(value + off)? - f((value - off).max(0.0))?).abs() / 2.0);
    told.kind = Some(LiquidKind::Syrup);
    told.brix = Some(brix);
    told.brix_if_invert = invert;
    if let (Some(rho), Some(wide), Some(sugar), Some(sugar_wide)) =
        (density_at_20(value), spread(&rho_of), sugar_of(value), spread(&sugar_of))
    {
        let model = in_kg_per_m3(rho.error);
        told.density = Some(Estimate { error: kg_per_m3(wide.hypot(model)), ..rho });
        told.sugar = Some(Estimate::new(kg_per_m3(sugar), kg_per_m3(sugar_wide.hypot(value / 100.0 * model))));
    }
    if r.of.is_none() && r.abv.is_none() {
        told.assume(
            "a sugar syrup without alcohol: with alcohol these numbers are wrong, add a second instrument or --abv",
        );
    }
    if let Some(why) = brix.extrapolated {
        told.say(Diagnostic::note(Code::PropertyExtrapolated, why));
    }
    if let Ok(limit) = sucrose_saturation(r.temperature) {
        warn_of_saturation(limit, r.temperature, told);
    }
    Ok(())
}

/// Says so if there is more sugar than stays dissolved.
pub(super) fn warn_of_saturation(limit: Estimate<Brix>, at: Temperature, told: &mut Told) {
    let Some(brix) = told.brix else { return };
    if brix.value.get() - brix.error.get() <= limit.value.get() + limit.error.get() {
        return;
    }
    told.say(
        Diagnostic::warning(
            Code::OverSaturated,
            format!(
                "{:.1} °Bx is more than sucrose can hold dissolved at {}, {:.1} °Bx",
                brix.value.get(),
                temperature_text(at),
                limit.value.get()
            ),
        )
        .help("honey, invert or glucose syrup can hold more; a sucrose syrup will throw crystals: thin it, or read it again warm"),
    );
}

/// The Brix at which an invert sugar has this property, where the equations for it reach.
fn if_invert(property: impl Fn(&Mixture) -> Option<f64>, target: f64) -> Option<Brix> {
    // glucose and fructose were fitted to 60 and 48 %
    const MOST: f64 = 0.65;
    let invert = |w: f64| {
        Mixture::of(&[(Component::Glucose, w / 2.0), (Component::Fructose, w / 2.0), (Component::Water, 1.0 - w)])
    };
    let w = bracketed(|w| property(&invert(w)).map_or(f64::NAN, |p| p - target), 0.0, MOST, 1e-9).ok()?;
    Brix::new(100.0 * w)
}

pub(super) fn spirit(r: &Readings, measured: Estimate<MassDensity>, told: &mut Told) -> Result<(), Refused> {
    let (rho, off) = (in_kg_per_m3(measured.value), in_kg_per_m3(measured.error));
    let share = |rho: f64| alcohol::mass_fraction_of_density(kg_per_m3(rho), r.temperature);
    // A reading of nothing may lie on the wrong side of water by what the instrument tells apart.
    let found = share(rho).or_else(|why| share(rho - off).map(|_| MassFraction::saturating(0.0)).map_err(|_| why));
    let found = found.map_err(|why| {
        out_of_range(
            &why,
            "heavier than water holds sugar: --of syrup, or add --refractometer or --abv; else check --at",
        )
    })?;
    let wide = off.hypot(SPIRIT_KG_M3);
    let abv = |share: MassFraction| alcohol::abv_of(share).get();
    let value = abv(found);
    let moved = [rho - wide, rho + wide].map(|rho| share(rho).map_or(0.0, |share| (abv(share) - value).abs()));
    let error = Abv::saturating(moved[0].max(moved[1]));
    told.kind = Some(LiquidKind::Spirit);
    told.abv = Some(Estimate::new(Abv::saturating(value), error));
    told.proof = Some(alcohol::proof_of(found));
    told.density = density::ethanol_water(found, standard_temperature())
        .ok()
        .map(|rho| Estimate { error: kg_per_m3(off.hypot(in_kg_per_m3(rho.error))), ..rho });
    told.assume("a spirit without sugar: every g/L of sugar makes it read about 0.2 % vol weak (27 CFR 30.32(b))");
    told.say(not_for_a_label(r, error.get()));
    Ok(())
}

fn not_for_a_label(r: &Readings, off: f64) -> Diagnostic {
    let limit = super::readings::LABEL_ABV;
    let word = if off > limit { "not label grade" } else { "not label grade by itself" };
    let what = if matches!(r.density, Some(Density::Weighed { .. })) { "this vessel and scale are" } else { "this is" };
    Diagnostic::note(
        Code::NotLabelGrade,
        format!("{word}: a label must be within {limit} % vol, {what} good for {off:.1}"),
    )
    .help("for a label use a certified alcoholometer and thermometer, or a laboratory")
}
