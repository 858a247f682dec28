//! A made batch that is off: the least that is added to land on what its card wants.
//!
//! The batch in hand is a fixed row of the engine and there is no yield row. Given the density of the
//! finished liquid the least addition is a linear programme, so its answer uses no more parts than there are
//! properties to mend: every such set of parts is tried, those with a negative mass are dropped, and the
//! lightest is taken.

mod least;
mod within;

use crate::card::{Card, Makes, TargetKind, TargetRange};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::larder::label::{self, LabelFigures};
use crate::mixture::Mixture;
use crate::properties::value_of;
use crate::units::{Volume, in_grams, in_millilitres};

use super::card::{self, Options, asked_ml};
use super::target::{TargetValue, agrees, target_words, volume_ml};
use super::{Solved, SolvedPart};
use least::{MOST_PARTS, wish};
use within::{least_within, ranges, with_ends};

/// The batch in hand, and what is asked of it.
#[derive(Clone, Debug)]
pub struct AdjustRequest {
    /// How much there is.
    pub have: Makes,
    /// What was measured, in the unit of its kind.
    pub readings: Vec<TargetValue>,
    /// What is on the shelf; `None`: the card's own parts.
    pub with: Option<Vec<String>>,
    /// What it must fit into; `None`: the bottles of the card, if it states some.
    pub vessel: Option<Volume>,
    /// Targets in place of the card's.
    pub set: Vec<TargetValue>,
}

/// What to add.
#[derive(Clone, Debug)]
pub struct Adjusted {
    /// How much there is, as it was measured.
    pub have: Makes,
    /// The batch in hand, grams.
    pub batch: Mixture,
    /// What was measured.
    pub readings: Vec<TargetValue>,
    /// What the batch shall be.
    pub targets: Vec<TargetValue>,
    /// Ranges of the card: anything in them is right.
    pub ranges: Vec<TargetRange>,
    /// What to add, each with its mass.
    pub add: Vec<SolvedPart>,
    /// What it must fit into, millilitres.
    pub vessel_ml: Option<f64>,
}

impl Adjusted {
    /// The batch with these masses of the additions, for example as they are weighed.
    pub fn with(&self, weigh: impl Fn(&SolvedPart) -> f64) -> Mixture {
        self.batch + self.add.iter().map(|part| part.found.per_gram * weigh(part)).sum()
    }

    /// The batch once all is added.
    pub fn after(&self) -> Mixture {
        self.with(|part| part.mass_g)
    }

    /// The share of the batch in hand that can stay, where all of it with what is added would not fit: the
    /// rest is drawn off first, and of every addition only this share is taken.
    pub fn share_that_fits(&self) -> Option<f64> {
        let share = self.vessel_ml? / volume_ml(&self.after())?;
        // a drop more is not too much
        (share < 1.0 - 1e-6).then_some(share)
    }

    /// Grams of the batch in hand to draw off first, where not all of it fits.
    pub(crate) fn draw_off_g(&self) -> Option<f64> {
        self.share_that_fits().map(|share| (1.0 - share) * self.batch.total_grams())
    }
}

/// Finds the least addition.
///
/// ```
/// use stillroom::card::{Makes, TargetKind};
/// use stillroom::house::House;
/// use stillroom::solver::adjust::{AdjustRequest, adjust};
/// use stillroom::units::grams;
///
/// let text = "name = \"Syrup\"\nmakes = \"1 L\"\n[target]\nbrix = 50\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"";
/// let (card, _) = stillroom::card::read("syrup.toml".into(), text.into());
/// let readings = vec![(TargetKind::Brix, 54.0)];
/// let request = AdjustRequest { have: Makes::Mass(grams(1000.0)), readings, with: None, vessel: None, set: vec![] };
/// let (answer, _) = adjust(&card.unwrap(), &House::default(), &request);
/// let add = &answer.unwrap().add[0];
/// assert_eq!((add.label.as_str(), add.mass_g.round()), ("water", 80.0));
/// ```
pub fn adjust(card: &Card, house: &House, asked: &AdjustRequest) -> (Option<Adjusted>, Vec<Diagnostic>) {
    let outcome = card::solve(card, house, &Options::default());
    let mut found = outcome.diagnostics;
    // A size that the amounts do not make is an error of the card, and no bar to mending a batch of it.
    let Some(mut solved) = outcome.solved else { return (None, found) };
    let answer = adjusted(card, house, asked, &mut solved);
    match &answer {
        Ok(answer) => found.extend(remarks(card, asked, answer)),
        Err(why) => found.extend(why.iter().cloned()),
    }
    (answer.ok(), found)
}

fn refuse<T>(code: Code, title: impl Into<String>, help: impl Into<String>) -> Result<T, Vec<Diagnostic>> {
    Err(vec![Diagnostic::error(code, title).help(help)])
}

fn adjusted(
    card: &Card,
    house: &House,
    asked: &AdjustRequest,
    solved: &mut Solved,
) -> Result<Adjusted, Vec<Diagnostic>> {
    if asked.readings.is_empty() && asked.set.is_empty() {
        return refuse(
            Code::BadArgument,
            "what was measured is not said",
            "give at least one reading of the batch: --brix 54, --abv 17.1, --sugar \"250 g/L\" or --acid \"4 g/L\"",
        );
    }
    let batch = in_hand(asked, solved)?;
    let ranges = ranges(card, &asked.set);
    let has_room = |kind: TargetKind| ranges.iter().any(|of| of.range.kind == kind);
    let exact = |held: &[TargetKind]| -> Result<Vec<TargetValue>, Vec<Diagnostic>> {
        Ok(wanted(asked, solved, held)?.into_iter().filter(|(kind, _)| !has_room(*kind)).collect())
    };
    let asked_for = exact(&[])?;
    // what nobody read is as the card makes it, and a target of the card is held
    let held: Vec<TargetKind> = solved.targets.iter().map(|(kind, _)| *kind).filter(|k| *k != TargetKind::Ph).collect();
    let all = exact(&held)?;
    let is_read = |kind: TargetKind| asked.readings.iter().any(|(read, _)| *read == kind);
    let shelf = match &asked.with {
        Some(names) => least::named(card, house, names, solved),
        None => least::of_card(card, house, solved),
    }?;
    if shelf.len() > MOST_PARTS {
        let title = format!("{} parts are too many to choose from", shelf.len());
        return refuse(Code::BadArgument, title, format!("name at most {MOST_PARTS}: --with water,\"white sugar\""));
    }
    // Where what is at hand cannot hold them all, that which was asked for goes first; a warning says what it costs.
    let held = least_within(&batch, &shelf, all, &ranges.iter().collect::<Vec<_>>()).ok();
    let read: Vec<_> = ranges.iter().filter(|of| is_read(of.range.kind)).collect();
    let answer = held.map_or_else(|| least_within(&batch, &shelf, asked_for.clone(), &read), Ok);
    let (targets, add) = match answer {
        Ok(answer) => answer,
        Err(Some(why)) => {
            let title = format!("the density of the adjusted batch cannot be computed ({why})");
            return refuse(Code::NoDensity, title, "check the readings, and what is on the shelf");
        }
        Err(None) => {
            return Err(vec![least::no_answer(
                card,
                house,
                solved,
                &batch,
                (&shelf, asked.with.is_some()),
                &with_ends(asked_for, &batch, &read),
            )]);
        }
    };
    Ok(Adjusted {
        have: asked.have,
        batch,
        readings: asked.readings.clone(),
        targets,
        ranges: ranges.iter().map(|of| of.range).collect(),
        add,
        vessel_ml: asked.vessel.map(in_millilitres).or_else(|| match card.makes.as_ref()?.value {
            bottles @ Makes::Bottles { .. } => Some(asked_ml(&bottles)),
            Makes::Volume(_) | Makes::Mass(_) => None,
        }),
    })
}

/// Readings of a batch as what a label would say of it.
pub(crate) fn label_of(readings: &[TargetValue]) -> LabelFigures {
    let read = |kind| readings.iter().find(|(k, _)| *k == kind).map(|(_, value)| *value);
    LabelFigures {
        abv: read(TargetKind::Abv),
        brix: read(TargetKind::Brix).map(|b| b / 100.0),
        sugar_g_l: read(TargetKind::Sugar),
        acid_g_l: read(TargetKind::Acid),
        ..LabelFigures::default()
    }
}

/// The batch in hand: made up as the card makes it, with its readings in place of the card's figures.
fn in_hand(asked: &AdjustRequest, solved: &Solved) -> Result<Mixture, Vec<Diagnostic>> {
    let base = solved.bottled().per_gram();
    let per_gram = match label::composition(Some(&base), &label_of(&asked.readings)) {
        Ok(per_gram) => per_gram,
        Err(label::Impossible(why)) => {
            return refuse(
                Code::Contradiction,
                format!("no batch of {} can read {}: {why}", solved.name, wish(&asked.readings)),
                "read it again; in a spirit a refractometer does not show the sugar: take hydrometer and refractometer together",
            );
        }
    };
    let grams = match asked.have {
        Makes::Mass(mass) => Some(in_grams(mass)),
        other => volume_ml(&per_gram).map(|ml_of_a_gram| asked_ml(&other) / ml_of_a_gram),
    };
    match grams.filter(|g| g.is_finite() && *g > 0.0) {
        Some(grams) => Ok(per_gram * grams),
        None => refuse(
            Code::NoDensity,
            "what this much of the batch weighs cannot be computed",
            "weigh the batch and give its weight: --have \"2.5 kg\"",
        ),
    }
}

/// What the batch shall be: for every property that was read or asked for, and those that are held as well, the target, else
/// what the card gives.
fn wanted(asked: &AdjustRequest, solved: &Solved, held: &[TargetKind]) -> Result<Vec<TargetValue>, Vec<Diagnostic>> {
    let is_asked = |kind: TargetKind| asked.readings.iter().chain(&asked.set).any(|(k, _)| *k == kind);
    if is_asked(TargetKind::Ph) {
        return refuse(
            Code::BadArgument,
            "a batch is not adjusted by its pH",
            "titrate it and give --acid \"6 g/L\", or adjust by taste and read the pH again",
        );
    }
    let target = |kind| {
        let stated = asked.set.iter().rev().chain(&solved.targets).find(|(k, _)| *k == kind).map(|(_, value)| *value);
        let (key, value) = (kind.key(), stated.or_else(|| value_of(kind, solved.bottled())));
        value.map_or_else(
            || {
                let title = format!("the card does not tell its {key}: no density");
                refuse(Code::NoDensity, title, format!("say what you want: --set {key}=…"))
            },
            |value| Ok((kind, value)),
        )
    };
    TargetKind::ALL.into_iter().filter(|kind| is_asked(*kind) || held.contains(kind)).map(target).collect()
}

fn remarks(card: &Card, asked: &AdjustRequest, answer: &Adjusted) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    if let Some(share) = answer.share_that_fits() {
        let drawn = 1.0 - share;
        let after = answer.after();
        let rest: Vec<_> = answer.add.iter().map(|p| format!("{:.0} g `{}`", share * p.mass_g, p.label)).collect();
        let vessel = answer.vessel_ml.unwrap_or_default();
        found.push(
            Diagnostic::warning(
                Code::DoesNotFit,
                format!(
                    "the adjusted batch is {:.0} ml, the vessel holds {vessel:.0} ml",
                    volume_ml(&after).unwrap_or_default()
                ),
            )
            .help(format!(
                "take a larger vessel, or draw off {:.0} g of the batch first ({:.0} ml) and add only {}",
                answer.draw_off_g().unwrap_or_default(),
                drawn * volume_ml(&answer.batch).unwrap_or_default(),
                if rest.is_empty() { "nothing".to_owned() } else { rest.join(" and ") },
            )),
        );
    }
    let read: Vec<_> = asked.readings.iter().map(|(kind, _)| kind.key()).collect();
    if !read.is_empty() {
        found.push(Diagnostic::note(
            Code::Assumed,
            format!("{} as read; all else in the proportions of the card", read.join(" and ")),
        ));
    }
    let is_settled = |of: TargetKind| {
        answer.targets.iter().any(|(kind, _)| *kind == of) || answer.ranges.iter().any(|range| range.kind == of)
    };
    for target in card.targets.iter().filter(|target| !is_settled(target.kind)) {
        let Some(gives) = value_of(target.kind, &answer.after()) else { continue };
        if !agrees(target.kind, target.value, gives) {
            found.push(
                Diagnostic::warning(
                    Code::TargetMissed,
                    format!(
                        "nobody read its {}: it lands at {}, the card wants {}",
                        target.kind.key(),
                        target_words(target.kind, gives),
                        target_words(target.kind, target.value)
                    ),
                )
                .help(format!("to hold it as well, give its reading too: --{} …", target.kind.key())),
            );
        }
    }
    found
}
