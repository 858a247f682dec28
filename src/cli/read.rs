//! `read`: what instruments show, as true values.

use std::path::Path;

use crate::diagnostic::{Code, Diagnostic, Severity, any_error};
use crate::house::Instruments;
use crate::instruments::{Density, InstrumentUncertainty, LiquidKind, PhReading, Readings, Titration, Told, tell};
use crate::mixture::acidity::{Acid, acids};
use crate::mixture::alcohol;
use crate::render;
use crate::report::read::{ReadView, uncertainty_of_house};
use crate::spelling::nearest;
use crate::units::{Abv, MassFraction, Ph, Strength, readers};

use super::Reply;
use super::open::{self, argument, bad_argument};

/// Tell true values from what a refractometer, a hydrometer, a scale, a pH meter or a burette shows.
///
/// Everything is brought to 20 °C and given as a range. One instrument cannot tell sugar from alcohol: for a
/// sweet spirit give two, or one and the strength. What the instruments of your house tell apart is taken
/// from [instruments] in house.toml.
#[derive(clap::Args)]
#[command(after_help = "\
Example: a syrup at 25 °C on a refractometer without temperature compensation
  stillroom read --refractometer 49.6 --at 25C

Example: a liqueur, both instruments at one temperature
  stillroom read --refractometer 32.6 --sg 1.0588 --at 20C

Example: a liqueur whose strength is known; a spirit as the alcoholometer shows it warm
  stillroom read --abv 28 --refractometer 39.5
  stillroom read --proof 193 --at 75F

Example: 100 ml of syrup on the scale; a titration; a pH in a syrup thinned 1:1 by weight with distilled water
  stillroom read --weight 131g --volume 100ml
  stillroom read --titre 12ml --sample 15ml --normality 0.1 --as tartaric
  stillroom read --ph 3.4 --diluted")]
pub(crate) struct Args {
    /// What a refractometer shows, °Bx
    #[arg(long, value_name = "BRIX")]
    refractometer: Option<String>,
    /// The refractometer compensates for temperature by itself (ATC)
    #[arg(long, requires = "refractometer")]
    atc: bool,
    /// Acid in the liquid, as anhydrous citric, to correct the refractometer for it ("6 %" by weight)
    #[arg(long, value_name = "PERCENT", requires = "refractometer")]
    acid: Option<String>,
    /// What a hydrometer shows in specific gravity (1.058)
    #[arg(long, value_name = "SG", group = "hydrometer")]
    sg: Option<String>,
    /// What a Brix or Plato hydrometer shows
    #[arg(long, visible_alias = "plato", value_name = "BRIX", group = "hydrometer")]
    brix_hydrometer: Option<String>,
    /// What a Baumé hydrometer for heavy liquids shows
    #[arg(long, value_name = "DEGREES", group = "hydrometer")]
    baume: Option<String>,
    /// What an alcoholometer shows, % vol at 20 °C, or "86 proof"
    #[arg(long, value_name = "STRENGTH", group = "hydrometer")]
    alcoholometer: Option<String>,
    /// What a US proof hydrometer (60 °F) shows
    #[arg(long, value_name = "PROOF", group = "hydrometer")]
    proof: Option<String>,
    /// Net weight of a volume of it
    #[arg(long, value_name = "WEIGHT", group = "hydrometer", requires = "volume")]
    weight: Option<String>,
    /// The volume that was weighed
    #[arg(long, value_name = "VOLUME", requires = "weight")]
    volume: Option<String>,
    /// The temperature for which the hydrometer is made (printed on it)  [default: 20 °C]
    #[arg(long, value_name = "TEMPERATURE", requires = "hydrometer")]
    calibrated: Option<String>,
    /// The temperature of the liquid when it was read  [default: 20 °C]
    #[arg(long, value_name = "TEMPERATURE")]
    at: Option<String>,
    /// The strength, where it is known (0 for none)
    #[arg(long, value_name = "STRENGTH")]
    abv: Option<String>,
    /// What it is: without alcohol, without sugar, or with both
    #[arg(long, value_enum)]
    of: Option<Of>,
    /// What a pH meter shows
    #[arg(long, value_name = "PH", group = "acidity")]
    ph: Option<String>,
    /// What a pH test strip shows
    #[arg(long, value_name = "PH", group = "acidity")]
    strip: Option<String>,
    /// The pH was read in the liquid thinned 1:1 by weight with distilled water
    #[arg(long, requires = "ph")]
    diluted: bool,
    /// Base used in a titration
    #[arg(long, value_name = "VOLUME", requires = "sample")]
    titre: Option<String>,
    /// Sample that was titrated
    #[arg(long, value_name = "VOLUME", requires = "titre")]
    sample: Option<String>,
    /// Strength of the base, equivalents per litre  [default: 0.1]
    #[arg(long, value_name = "N", requires = "titre")]
    normality: Option<String>,
    /// pH at which the titration was stopped  [default: 8.1]
    #[arg(long, value_name = "PH", requires = "titre")]
    endpoint: Option<String>,
    /// The acid that it is told as  [default: citric]
    #[arg(long, value_name = "ACID", requires = "titre")]
    r#as: Option<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum Of {
    Syrup,
    Spirit,
    Liqueur,
}

pub(crate) fn run(args: &Args) -> Reply {
    let mut found = Vec::new();
    let readings = readings(args, &mut found);
    let (house, house_says) = open::house(Path::new("."));
    // A house is not needed here: what is taken instead is said below.
    found.extend(house_says.into_iter().filter(|d| d.severity != Severity::Note));
    let mut told = Told::default();
    if !any_error(&found) {
        assumptions(args, &readings, &house.settings.instruments, &mut found);
        told = tell(&readings, &uncertainty_of_house(&house.settings.instruments));
        found.append(&mut told.diagnostics);
    }
    open::reply(Some(ReadView::new(&readings, &told, &found)), found, args.json, render::text::read)
}

fn assumptions(args: &Args, read: &Readings, own: &Instruments, found: &mut Vec<Diagnostic>) {
    let mut assume = |what: String| found.push(Diagnostic::note(Code::Assumed, what));
    let weighed = args.weight.is_some();
    let hydrometer = read.density.is_some() && !weighed;
    if args.at.is_none() && (read.refractometer.is_some() || read.density.is_some()) {
        assume("read at 20 °C (--at): each °C warmer and a syrup holds 0.1 °Bx more than a refractometer shows".into());
    }
    if read.refractometer.is_some() && !read.compensated && args.at.is_some() {
        assume("a refractometer that does not compensate for temperature (--atc if it does)".into());
    }
    if args.calibrated.is_none() && (args.sg.is_some() || args.baume.is_some()) {
        assume("a hydrometer made for 20 °C (--calibrated 60F if it is marked 60/60 °F)".into());
    }
    let usual = InstrumentUncertainty::default();
    if read.refractometer.is_some() && own.refractometer_assumed {
        assume(format!("a refractometer good for {} °Bx (house.toml does not say)", own.refractometer_brix));
    }
    if hydrometer && own.hydrometer_sg.is_none() {
        assume(format!("a hydrometer good for {} in gravity (house.toml does not say)", usual.hydrometer_sg));
    }
    if weighed {
        assume("a vessel filled to 1 %: a litre tells more than 100 ml".into());
    }
    if matches!(read.ph, Some(PhReading::Meter(_) | PhReading::Diluted(_))) && own.ph_meter.is_none() {
        assume(format!("a pH meter good for {}, calibrated today (house.toml does not say)", usual.ph_meter));
    }
    if read.titration.is_some() {
        for (given, what) in
            [(&args.normality, "a base of 0.1 N (--normality)"), (&args.endpoint, "stopped at pH 8.1 (--endpoint)")]
        {
            if given.is_none() {
                assume(what.into());
            }
        }
    }
}

fn readings(args: &Args, found: &mut Vec<Diagnostic>) -> Readings {
    let usual = Readings::default();
    let meter = argument(args.ph.as_deref(), "--ph 3.4", readers::number, found);
    let meter = meter.map(|ph| if args.diluted { PhReading::Diluted(ph) } else { PhReading::Meter(ph) });
    let strip = argument(args.strip.as_deref(), "--strip 3.5", readers::number, found).map(PhReading::Strip);
    Readings {
        temperature: argument(args.at.as_deref(), "--at 25C", readers::temperature, found).unwrap_or(usual.temperature),
        refractometer: argument(args.refractometer.as_deref(), "--refractometer 49.6", readers::brix, found),
        compensated: args.atc,
        acid: argument(args.acid.as_deref(), "--acid \"6 %\"", readers::fraction, found).and_then(MassFraction::new),
        density: density(args, found),
        calibrated: argument(args.calibrated.as_deref(), "--calibrated 60F", readers::temperature, found)
            .unwrap_or(usual.calibrated),
        abv: argument(args.abv.as_deref(), "--abv 28", readers::abv, found).map(strength),
        of: args.of.map(|of| match of {
            Of::Syrup => LiquidKind::Syrup,
            Of::Spirit => LiquidKind::Spirit,
            Of::Liqueur => LiquidKind::Liqueur,
        }),
        ph: meter.or(strip),
        titration: titration(args, found),
    }
}

fn strength(written: Strength) -> Abv {
    match written {
        Strength::Abv(abv) => abv,
        // the reader keeps proof within 0 to 200
        Strength::Proof(proof) => {
            alcohol::mass_fraction_of_proof(proof).map_or(Abv::saturating(proof / 2.0), alcohol::abv_of)
        }
    }
}

/// The one reading of a density; the command line lets no second one through.
fn density(args: &Args, found: &mut Vec<Diagnostic>) -> Option<Density> {
    let by_scale = [
        argument(args.sg.as_deref(), "--sg 1.058", readers::number, found).map(Density::SpecificGravity),
        argument(args.brix_hydrometer.as_deref(), "--brix-hydrometer 50", readers::brix, found).map(Density::Brix),
        argument(args.baume.as_deref(), "--baume 30", readers::number, found).map(Density::Baume),
        argument(args.alcoholometer.as_deref(), "--alcoholometer 40", readers::abv, found).map(|shown| match shown {
            Strength::Abv(abv) => Density::Alcohol(abv),
            Strength::Proof(proof) => Density::Proof(proof),
        }),
        argument(args.proof.as_deref(), "--proof 80", readers::number, found).map(Density::Proof),
    ];
    let mass = argument(args.weight.as_deref(), "--weight 131g", readers::mass, found);
    let volume = argument(args.volume.as_deref(), "--volume 100ml", readers::volume, found);
    let weighed = mass.zip(volume).map(|(mass, volume)| Density::Weighed { mass, volume });
    by_scale.into_iter().flatten().next().or(weighed)
}

fn titration(args: &Args, found: &mut Vec<Diagnostic>) -> Option<Titration> {
    let titre = argument(args.titre.as_deref(), "--titre 12ml", readers::volume, found);
    let sample = argument(args.sample.as_deref(), "--sample 15ml", readers::volume, found);
    let normality = argument(args.normality.as_deref(), "--normality 0.1", readers::number, found);
    let endpoint = argument(args.endpoint.as_deref(), "--endpoint 8.1", readers::number, found);
    let as_acid = match args.r#as.as_deref() {
        None => Some(&acids::CITRIC),
        Some(written) => acid(written, found),
    };
    Some(Titration {
        titre: titre?,
        sample: sample?,
        normality: normality.unwrap_or(0.1),
        endpoint: Ph::saturating(endpoint.unwrap_or(8.1)),
        as_acid: as_acid?,
    })
}

fn acid(written: &str, found: &mut Vec<Diagnostic>) -> Option<&'static Acid> {
    let names = || acids::ALL.iter().filter(|acid| acid.component.is_some()).map(|acid| acid.name);
    let named = Acid::named(&written.to_lowercase()).filter(|acid| acid.component.is_some());
    if named.is_none() {
        let help = match nearest(written, names()) {
            Some(near) => format!("did you mean {near}?"),
            None => format!("the acids are {}", names().collect::<Vec<_>>().join(", ")),
        };
        found.push(bad_argument("--as", written, "no acid of this name is known", &help));
    }
    named
}
