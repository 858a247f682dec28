//! Sugar and alcohol at once: two unknowns from two facts.
//!
//! The facts are a density and a refractive index at the temperature of the reading, or one of them and the strength.
//! Unknown are the mass fractions of sucrose and of ethanol. For each share of sucrose the share of ethanol that
//! gives the first fact is a bracketed root (density falls, strength rises with it); along that line the second fact
//! rises with the sugar, which is a bracketed root again. No starting guess, one answer or none.
//!
//! Checked: forward and back over 5 to 55 % vol and 20 to 500 g/L at 5 to 35 °C, to 0.001 % vol and 0.01 g/L. The
//! equations themselves are good for ±0.6 % vol and ±3 g/L at best: density ±0.001 is 0.37 % vol, the index of sweet
//! spirit, which no measurement has proved, 0.2 to 0.4. A Colorado thesis by the same method reached ±1 °Bx and ±2 % vol.
//! 10 g/L of anything not like sucrose (acid, glycerol, invert sugar, pectin) moves the strength by 0.5 points or more.

use crate::diagnostic::{Code, Diagnostic};
use crate::mixture::{Component, Estimate, Mixture, root::bracketed};
use crate::units::{
    Abv, Brix, MassDensity, Temperature, celsius, degrees_celsius, in_grams_per_litre, in_kg_per_m3, kg_per_m3,
};

use super::readings::{LABEL_ABV, LiquidKind, Readings, standard_temperature};
use super::told::{Refused, Told, refuse};

/// The least that the equations are off, % vol: from two instruments.
pub(crate) const MODEL_ABV: f64 = 0.6;
/// The least that the equations are off, g/L of sugar.
pub(crate) const MODEL_SUGAR_G_L: f64 = 3.0;
/// The sweetest water that the equations reach.
const MOST_SUGAR_IN_WATER: f64 = 0.85;
const TOLERANCE: f64 = 1e-13;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum FactKind {
    Density,
    Index,
    Strength,
}

/// A property with its value (kg/m³, index or % vol) and the uncertainty of the instrument.
#[derive(Clone, Copy, Debug)]
pub(super) struct SweetFact {
    pub known: FactKind,
    pub value: f64,
    pub uncertainty: f64,
}

impl SweetFact {
    pub(super) fn density(measured: Estimate<MassDensity>) -> Self {
        Self {
            known: FactKind::Density,
            value: in_kg_per_m3(measured.value),
            uncertainty: in_kg_per_m3(measured.error),
        }
    }

    /// What a liquid would show, with the error of the equation; not a number where that reaches no further.
    fn shown_by(self, [sucrose, ethanol]: [f64; 2], t: Temperature) -> (f64, f64) {
        let liquid = mixture([sucrose, ethanol]);
        let both = match self.known {
            FactKind::Density => liquid.density(t).map(|d| (in_kg_per_m3(d.value), in_kg_per_m3(d.error))),
            FactKind::Index => liquid.refractive_index(t).map(|n| (n.value, n.error)),
            FactKind::Strength => liquid.abv().map(|abv| (abv.value.get(), abv.error.get())),
        };
        both.unwrap_or((f64::NAN, f64::NAN))
    }

    fn off(self, shares: [f64; 2], t: Temperature) -> f64 {
        self.shown_by(shares, t).0 - self.value
    }
}

/// Shares by mass of sucrose and ethanol; the rest is water.
fn mixture([sucrose, ethanol]: [f64; 2]) -> Mixture {
    let water = (1.0 - sucrose - ethanol).max(0.0);
    Mixture::of(&[(Component::Sucrose, sucrose), (Component::Ethanol, ethanol), (Component::Water, water)])
}

/// The most ethanol beside so much sucrose.
fn driest(sucrose: f64) -> f64 {
    (1.0 - sucrose / MOST_SUGAR_IN_WATER).max(0.0)
}

/// The line of liquids on which the first fact holds, by their sucrose.
struct LiquidLine {
    fact: SweetFact,
    t: Temperature,
    least: f64,
    most: f64,
}

impl LiquidLine {
    /// None where no liquid of sugar, alcohol and water has the fact.
    fn through(fact: SweetFact, t: Temperature) -> Option<Self> {
        // Turns the strength, which rises with ethanol, into something that falls like the density.
        let sign = if fact.known == FactKind::Strength { -1.0 } else { 1.0 };
        let without = |sucrose: f64| sign * fact.off([sucrose, 0.0], t);
        let full = |sucrose: f64| sign * fact.off([sucrose, driest(sucrose)], t);
        let end = |f: &dyn Fn(f64) -> f64| bracketed(f, 0.0, MOST_SUGAR_IN_WATER, TOLERANCE).ok();
        let least = if without(0.0) >= 0.0 { 0.0 } else { end(&without)? };
        let most = if full(MOST_SUGAR_IN_WATER) <= 0.0 { MOST_SUGAR_IN_WATER } else { end(&full)? };
        (least <= most).then_some(Self { fact, t, least, most })
    }

    fn at(&self, sucrose: f64) -> [f64; 2] {
        let (none, most) = (0.0, driest(sucrose));
        let off = |ethanol: f64| self.fact.off([sucrose, ethanol], self.t);
        // At its two ends the line touches what is possible, but for the last digit.
        let nearer = || if off(none).abs() < off(most).abs() { none } else { most };
        [sucrose, bracketed(off, none, most, TOLERANCE).unwrap_or_else(|_| nearer())]
    }
}

enum Miss {
    /// The first fact fits no liquid.
    First,
    /// The second lies below what the first allows: here, by so much.
    Low([f64; 2], f64),
    /// The second lies above it.
    High,
}

fn solve(first: SweetFact, second: SweetFact, t: Temperature) -> Result<[f64; 2], Miss> {
    let line = LiquidLine::through(first, t).ok_or(Miss::First)?;
    let off = |sucrose: f64| second.off(line.at(sucrose), t);
    match bracketed(off, line.least, line.most, TOLERANCE) {
        Ok(sucrose) => Ok(line.at(sucrose)),
        Err(ends) if ends.at_lo > 0.0 => Err(Miss::Low(line.at(line.least), ends.at_lo)),
        Err(_) => Err(Miss::High),
    }
}

/// How far the two facts may miss each other at the poor end of the line: the uncertainty of the second, and
/// what the uncertainty of the first does to it there. Added, not as squares: that two readings contradict is said only
/// where both at their worst do.
fn slack(first: SweetFact, second: SweetFact, edge: [f64; 2], t: Temperature) -> f64 {
    let total = |fact: SweetFact| fact.uncertainty.hypot(fact.shown_by(edge, t).1);
    let moved = [-1.0, 1.0].map(|side| {
        let shifted = SweetFact { value: first.value + side * total(first), ..first };
        let line = LiquidLine::through(shifted, t)?;
        Some((second.shown_by(line.at(line.least), t).0 - second.shown_by(edge, t).0).abs())
    });
    total(second) + moved.into_iter().flatten().fold(0.0, f64::max)
}

/// The liquid that two facts describe. A second fact that misses by less than the uncertainties is met at the edge: no
/// alcohol, or no sugar, that these instruments can see.
fn liquid(first: SweetFact, second: SweetFact, t: Temperature) -> Result<[f64; 2], Miss> {
    match solve(first, second, t) {
        Err(Miss::Low(edge, by)) if by <= slack(first, second, edge, t) => Ok(edge),
        other => other,
    }
}

/// How much an output moves for a unit of each fact: the gradient times the inverse of the facts' slopes.
fn influence(output: impl Fn([f64; 2]) -> f64, facts: [SweetFact; 2], at: [f64; 2], t: Temperature) -> [f64; 2] {
    const STEP: f64 = 1e-5;
    let slopes = |f: &dyn Fn([f64; 2]) -> f64| {
        [0, 1].map(|i| {
            let (mut low, mut high) = (at, at);
            low[i] = (at[i] - STEP).max(0.0);
            high[i] = at[i] + STEP;
            (f(high) - f(low)) / (high[i] - low[i])
        })
    };
    let [a, b] = facts.map(|fact| slopes(&|x| fact.shown_by(x, t).0));
    let g = slopes(&output);
    let det = a[0] * b[1] - a[1] * b[0];
    [(g[0] * b[1] - g[1] * b[0]) / det, (g[1] * a[0] - g[0] * a[1]) / det]
}

/// The half-width at 95 % of an output: instruments, and the equations but never less than `least`, as squares.
fn uncertainty(
    output: impl Fn([f64; 2]) -> f64,
    facts: [SweetFact; 2],
    at: [f64; 2],
    t: Temperature,
    least: f64,
) -> f64 {
    let moves = influence(output, facts, at, t);
    let sum = |of: &dyn Fn(SweetFact) -> f64| (moves[0] * of(facts[0])).hypot(moves[1] * of(facts[1]));
    let instruments = sum(&|fact| fact.uncertainty);
    let equations = sum(&|fact| fact.shown_by(at, t).1);
    instruments.hypot(equations.max(least))
}

pub(super) fn tell(r: &Readings, first: SweetFact, second: SweetFact, told: &mut Told) -> Result<(), Refused> {
    let t = r.temperature;
    let t_c = degrees_celsius(t);
    if !(0.0..=40.0).contains(&t_c) {
        let title = format!("sweet spirit is read between 0 and 40 °C, not at {t_c:.1} °C");
        return refuse(Code::OutOfRange, title, "bring it to about 20 °C and read again");
    }
    let at = match liquid(first, second, t) {
        Ok(at) => at,
        Err(miss) => return Err(Box::new(contradiction(r, first, second, &miss, told.measured_density))),
    };
    let facts = [first, second];
    let strength_known = first.known == FactKind::Strength;
    let found = mixture(at);
    let abv = |x| mixture(x).abv().map_or(f64::NAN, |abv| abv.value.get());
    let sugar = |x| mixture(x).sugar_concentration().map_or(f64::NAN, |s| in_grams_per_litre(s.value));
    let density = |x| mixture(x).density(standard_temperature()).map_or(f64::NAN, |d| in_kg_per_m3(d.value));
    let rho = density(at);
    let half = [
        uncertainty(abv, facts, at, t, if strength_known { 0.0 } else { MODEL_ABV }),
        uncertainty(sugar, facts, at, t, MODEL_SUGAR_G_L),
        uncertainty(|x| 100.0 * x[0], facts, at, t, 100.0 * MODEL_SUGAR_G_L / rho),
        uncertainty(density, facts, at, t, 0.0),
    ];
    let values = [abv(at), sugar(at), rho];
    if !half.iter().chain(&values).all(|x| x.is_finite()) {
        return refuse(
            Code::OutOfRange,
            "no doubt can be given for these readings",
            "bring it to about 20 °C and read again",
        );
    }
    told.kind = Some(LiquidKind::Liqueur);
    told.abv = Some(Estimate::new(Abv::saturating(values[0]), Abv::saturating(half[0])));
    told.sugar = Some(Estimate::new(kg_per_m3(values[1]), kg_per_m3(half[1])));
    told.brix = Some(Estimate::new(Brix::saturating(100.0 * at[0]), Brix::saturating(half[2])));
    told.density = Some(Estimate::new(kg_per_m3(values[2]), kg_per_m3(half[3])));
    remarks(r, &found, strength_known, told);
    Ok(())
}

fn remarks(r: &Readings, found: &Mixture, strength_known: bool, told: &mut Told) {
    told.assume("all that is dissolved is sucrose: 10 g/L of acid, glycerol or invert sugar moves the strength by half a point or more");
    if strength_known {
        told.assume(format!("the strength is known to {LABEL_ABV} % vol, as a label is"));
    } else {
        let off = told.abv.map_or(0.0, |abv| abv.error.get());
        told.say(
            Diagnostic::note(
                Code::NotLabelGrade,
                format!("not label grade: a label must be within {LABEL_ABV} % vol, this is good for {off:.1}"),
            )
            .help("for a label have it distilled and measured by a laboratory"),
        );
    }
    let t = r.temperature;
    let index = found.refractive_index(t).ok().filter(|_| r.refractometer.is_some()).and_then(|n| n.extrapolated);
    let density = found.density(t).ok().and_then(|d| d.extrapolated);
    for why in [density, index].into_iter().flatten() {
        told.say(Diagnostic::note(Code::PropertyExtrapolated, why));
    }
    if let Ok(limit) = found.saturation_brix(t) {
        super::plain::warn_of_saturation(limit, t, told);
    }
}

/// With strength and both readings: what the two instruments say of the strength must not contradict it.
pub(super) fn check(
    r: &Readings,
    density: SweetFact,
    index: SweetFact,
    strength: SweetFact,
    told: &mut Told,
) -> Result<(), Refused> {
    let at = liquid(density, index, r.temperature)
        .map_err(|miss| Box::new(contradiction(r, density, index, &miss, told.measured_density)))?;
    let abv = |x| mixture(x).abv().map_or(f64::NAN, |abv| abv.value.get());
    let (found, off) = (abv(at), uncertainty(abv, [density, index], at, r.temperature, MODEL_ABV));
    if (found - strength.value).abs() > off.hypot(strength.uncertainty) {
        told.say(
            Diagnostic::warning(
                Code::ReadingsContradict,
                format!("the two instruments say {found:.1} ± {off:.1} % vol, --abv says {:.1}", strength.value),
            )
            .help("something besides sucrose is in it, a reading is off, or the strength is not what it is said to be"),
        );
    }
    Ok(())
}

fn contradiction(
    r: &Readings,
    first: SweetFact,
    second: SweetFact,
    miss: &Miss,
    measured: Option<Estimate<MassDensity>>,
) -> Diagnostic {
    let shown = |fact: SweetFact| match fact.known {
        FactKind::Density => {
            format!("a density of {:.1} kg/m³", measured.map_or(fact.value, |d| in_kg_per_m3(d.value)))
        }
        FactKind::Index => format!("a refractometer at {:.1} °Bx", r.refractometer.map_or(f64::NAN, Brix::get)),
        FactKind::Strength => format!("a strength of {:.1} % vol", fact.value),
    };
    let why = match miss {
        Miss::First => "no sugar, alcohol and water has the first".to_owned(),
        Miss::High => "no sugar and alcohol in water have both: the second is too high for the first".to_owned(),
        Miss::Low(edge, _) => {
            let least = least_shown(r, second, *edge);
            let what = if edge[1] > 0.0 { "without any sugar" } else { "without any alcohol" };
            let more =
                if first.known == FactKind::Strength { "sugar only raises" } else { "sugar or alcohol only raises" };
            format!("{what} the second would be {least}, and {more} it")
        }
    };
    Diagnostic::error(Code::ReadingsContradict, format!("{} and {} contradict each other: {why}", shown(first), shown(second)))
        .help(
            "check: both read at one temperature and --at given; --atc if the refractometer compensates; zero with water; \
             the scale and temperature of the hydrometer (--calibrated); no bubbles, pulp or cream; read the lower edge of the curve",
        )
}

/// The least that the second instrument could have shown beside the first.
fn least_shown(r: &Readings, second: SweetFact, edge: [f64; 2]) -> String {
    let (value, _) = second.shown_by(edge, r.temperature);
    if second.known != FactKind::Index {
        return format!("{value:.1} kg/m³");
    }
    let scale = if r.compensated { r.temperature } else { celsius(20.0) };
    let brix = crate::mixture::refraction::brix_of_index(value, scale);
    brix.map_or_else(|_| "off the scale".to_owned(), |brix| format!("{:.1} °Bx", brix.value.get()))
}
