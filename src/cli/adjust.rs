//! `adjust`: what to add to a made batch to land on its targets.

use crate::card::{TargetKind, target_value};
use crate::diagnostic::{Code, Diagnostic};
use crate::render;
use crate::report::adjust::AdjustView;
use crate::solver::adjust::AdjustRequest;
use crate::units::{Customs, Volume, literal, millilitres, readers, taken};

use super::Reply;
use super::open::{self, argument};
use super::solve::{makes, target};

/// Say what to add to a batch that is off, to land on what its card wants.
///
/// FILE is a formula file, or the name of a product of the house in this folder. What was not measured
/// is taken from the card. The answer is the least that can be added from what is at hand: the parts that
/// the card leaves open, its sugar, and water, or what --with names.
#[derive(clap::Args)]
#[command(after_help = "\
Example: 2.1 litres of a syrup came out at 54 °Bx, it should have 50
  stillroom adjust formulas/plain-syrup.toml --have 2.1L --brix 54 --with water

Example: a liqueur came out at 17.1 % and 31 °Bx, it should have 18 and 30, in a 5 litre demijohn
  stillroom adjust formulas/lime-and-clove-liqueur.toml --have 3L --abv 17.1 --brix 31 --set brix=30 --vessel 5L")]
pub(crate) struct Args {
    /// The formula file, or the product's name
    file: String,
    /// How much there is: a volume, a weight, or bottles ("3 x 700 ml")
    #[arg(long, value_name = "AMOUNT")]
    have: String,
    /// What it reads, °Bx at 20 °C, true dissolved solids (a refractometer's reading, if there is no alcohol)
    #[arg(long, value_name = "BRIX")]
    brix: Option<String>,
    /// What it reads, % vol at 20 °C
    #[arg(long, value_name = "STRENGTH")]
    abv: Option<String>,
    /// What it has, sugars ("250 g/L")
    #[arg(long, value_name = "G/L")]
    sugar: Option<String>,
    /// What it has, titratable acid as citric ("6 g/L")
    #[arg(long, value_name = "G/L")]
    acid: Option<String>,
    /// What is at hand to add, parted by commas (water,"white sugar")
    #[arg(long, value_name = "PARTS", value_delimiter = ',')]
    with: Option<Vec<String>>,
    /// What it must fit into; the bottles of the card, if this is not given
    #[arg(long, value_name = "VOLUME")]
    vessel: Option<String>,
    /// Another target than the card's ("brix=50"); may be given more than once
    #[arg(long, value_name = "TARGET=VALUE")]
    set: Vec<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(args: &Args) -> Reply {
    let mut opened = open::card(&args.file, &[], Vec::new());
    let customs = opened.house.customs();
    let asked = read(args, &customs, &mut opened.found);
    opened.reply(args.json, render::text::adjust, |card, house, found| {
        let view = AdjustView::of_card(card, house, &asked?, found)?;
        let understood = taken(&literal::read_by(&args.have, &customs).ok());
        found.extend(understood.into_iter().map(|said| Diagnostic::note(Code::Understood, said)));
        Some(view)
    })
}

fn read(args: &Args, customs: &Customs, found: &mut Vec<Diagnostic>) -> Option<AdjustRequest> {
    let have = argument(Some(&args.have), "--have 2.1L or --have \"2.6 kg\"", |have| makes(have, customs), found);
    let readings = [
        (TargetKind::Brix, &args.brix, "--brix 54"),
        (TargetKind::Abv, &args.abv, "--abv 17.1"),
        (TargetKind::Sugar, &args.sugar, "--sugar \"250 g/L\""),
        (TargetKind::Acid, &args.acid, "--acid \"6 g/L\""),
    ];
    let readings = readings.into_iter().filter_map(|(kind, written, example)| {
        let value = |written: &str| target_value(kind, written.trim()).map_err(|why| why.title);
        Some((kind, argument(written.as_deref(), example, value, found)?))
    });
    let readings = readings.collect();
    let set = args.set.iter().filter_map(|written| argument(Some(written), "--set brix=50", target, found)).collect();
    let vessel = argument(args.vessel.as_deref(), "--vessel 2.5L", |vessel| holds(vessel, customs), found);
    Some(AdjustRequest { have: have?, readings, with: args.with.clone(), vessel, set })
}

fn holds(written: &str, customs: &Customs) -> Result<Volume, String> {
    let volume = readers::volume_by(written, customs)?;
    if volume > millilitres(0.0) { Ok(volume) } else { Err("it holds nothing".to_owned()) }
}
