//! The inputs of a batch and how far each may be off, as half-widths at 95 %.

use crate::house::Instruments;
use crate::larder::{Form, Ingredient, Origin};
use crate::mixture::{Component, Mixture};
use crate::quantity::{Literal, in_grams, literal};
use crate::solve::resolve::What;
use crate::solve::{Solved, SolvedPart};

/// A cup or spoon of something piled: 5 to 15 % by packing and crystal size (the household weights of
/// USDA SR26 and their spread; the middle of it is taken).
const CUP: f64 = 0.10;
/// A liquid measured in a jug or a bottle cap (common practice, no source).
const JUG: f64 = 0.02;
/// A dash or a drop: 0.6 to 0.9 ml are quoted for a dash, ±15 % for a drop (USP 1101); common practice.
const DASH: f64 = 0.30;
/// Strength on a label, points: Reg (EU) 1169/2011 Annex XII and 27 CFR 19.356(c).
pub const LABEL_ABV: f64 = 0.3;
/// Natural spread of water and sugars of one kind of fruit, juice or syrup between national tables,
/// g per 100 g (USDA SR26 against CIQUAL 2020 and the Japanese tables: 3 g covers every row).
const NATURAL: f64 = 3.0;
/// Natural spread of the acid of a juice between the same tables, g per 100 g. Half the difference
/// that covers every row: limes of one house differ less than those of two continents (ours).
const NATURAL_ACID: f64 = 1.0;
/// Moisture of dark muscovado runs from 0.5 to 5 % in a raw-sugar market summary: half of that.
const RANGE_MIDPOINT: f64 = 2.25;
/// A dry, crystalline ingredient (USDA and CIQUAL sugars differ by 0.1 to 0.2 g per 100 g; rounded up).
const DRY: f64 = 0.3;
/// Share by which a default for what strained solids keep may be off (common practice, no source).
const HOLDS: f64 = 0.25;

/// Why an input is in doubt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// The scale.
    Scale,
    /// A cup, a spoon, a jug, a dash.
    Volume,
    /// What an ingredient is made of.
    Composition,
    /// Its acid.
    Acid,
    /// What a label says of its strength.
    Label,
    /// What strained solids keep.
    Holds,
}

impl Cause {
    /// What to do about it.
    pub fn remedy(self) -> &'static str {
        match self {
            Self::Scale => "weigh it on a finer scale, or make a larger batch",
            Self::Volume => "weigh it",
            Self::Composition => "read the Brix of what you have, and give it in larder.toml",
            Self::Acid => "titrate what you have, and give its acid in larder.toml",
            Self::Label => "nothing the house can do: labels may be off by this much",
            Self::Holds => "weigh the wet solids once, and give `holds` on the card",
        }
    }
}

/// One input that may be off.
#[derive(Clone, Debug)]
pub struct Input {
    /// In words.
    pub what: String,
    /// Why.
    pub cause: Cause,
    change: Change,
}

#[derive(Clone, Debug)]
enum Change {
    /// Grams of one line: (stage, part, half-width).
    Mass(usize, usize, f64),
    /// Composition of one gram of an ingredient, by id.
    Composition(String, Mixture),
    /// What a line keeps: (stage, part, half-width).
    Holds(usize, usize, f64),
}

impl Input {
    /// What is bottled when the input is off by `side` half-widths.
    pub fn run(&self, solved: &Solved, side: f64) -> Mixture {
        let mut moved = solved.clone();
        match &self.change {
            Change::Mass(stage, part, g) => {
                if let Some(part) = moved.stages.get_mut(*stage).and_then(|s| s.parts.get_mut(*part)) {
                    part.mass_g = (part.mass_g + side * g).max(0.0);
                }
            }
            Change::Composition(id, delta) => {
                for part in moved.stages.iter_mut().flat_map(|s| &mut s.parts) {
                    if identity(part).is_some_and(|own| own == id) {
                        part.feed.per_gram += *delta * side;
                    }
                }
            }
            Change::Holds(stage, part, by) => {
                if let Some(part) = moved.stages.get_mut(*stage).and_then(|s| s.parts.get_mut(*part)) {
                    part.feed.holds = part.feed.holds.map(|h| h + side * by);
                }
            }
        }
        *moved.weighed(|part| part.mass_g).bottled()
    }
}

/// The name under which one ingredient or inner formula is the same thing wherever it stands.
fn identity(part: &SolvedPart) -> Option<&str> {
    match &part.found.what {
        What::Ingredient(ingredient) => Some(&ingredient.id),
        What::Formula(_) => Some(&part.of),
        What::Stage(_) => None,
    }
}

/// Every input of a solved card.
pub fn inputs(solved: &Solved, instruments: &Instruments) -> Vec<Input> {
    let mut all: Vec<Input> = Vec::new();
    for (s, stage) in solved.stages.iter().enumerate() {
        for (p, part) in stage.parts.iter().enumerate().filter(|(_, part)| part.mass_g > 0.0) {
            let (half, cause, verb) = measuring(part, instruments);
            all.push(Input { what: format!("{verb} {}", part.label), cause, change: Change::Mass(s, p, half) });
            if let (Some(holds), What::Ingredient(ingredient)) = (part.feed.holds, &part.found.what)
                && ingredient.holds == Some(holds)
                && holds > 0.0
            {
                let what = format!("what the strained {} keeps", part.label);
                all.push(Input { what, cause: Cause::Holds, change: Change::Holds(s, p, HOLDS * holds) });
            }
            let new = identity(part).is_some_and(|id| {
                !all.iter().any(|i| matches!(&i.change, Change::Composition(known, _) if known == id))
            });
            if new {
                all.extend(composition(part, solved, instruments));
            }
        }
    }
    all
}

/// How far the amount of a line may be off, grams: by the scale, unless its card measures it by volume.
fn measuring(part: &SolvedPart, instruments: &Instruments) -> (f64, Cause, &'static str) {
    let by_volume = literal::read(&part.written).ok().and_then(|reading| match reading.literal {
        Literal::Volume(_) | Literal::VolumeShare(_) => Some(reading),
        _ => None,
    });
    if let Some(reading) = by_volume {
        let rough = reading.measure.is_some_and(|m| m.is_common_practice());
        let share = match part.found.form {
            _ if rough => DASH,
            Form::Solid => CUP,
            Form::Liquid => JUG,
        };
        return (share * part.mass_g, Cause::Volume, "measuring by volume:");
    }
    let coarse = in_grams(instruments.scale.step);
    let fine = instruments.fine_scale.as_ref().filter(|f| part.mass_g <= in_grams(f.up_to)).map(|f| in_grams(f.step));
    // As on the sheet: the fine scale takes what is too little for the other.
    let step = match fine {
        Some(fine) if part.mass_g < 20.0 * coarse => fine,
        _ => coarse,
    };
    (step, Cause::Scale, "weighing")
}

/// How far a gram of an ingredient may differ from what the larder says.
fn composition(part: &SolvedPart, solved: &Solved, instruments: &Instruments) -> Vec<Input> {
    let Some(id) = identity(part).map(str::to_owned) else { return Vec::new() };
    let input = |what: String, cause, delta| Input { what, cause, change: Change::Composition(id.clone(), delta) };
    let of = &part.feed.per_gram;
    match &part.found.what {
        What::Ingredient(ingredient) => {
            let mut all = Vec::new();
            if let Some(solids) = solids_spread(ingredient, instruments) {
                all.push(input(
                    format!("what {} is made of", ingredient.name),
                    Cause::Composition,
                    richer(of, solids / 100.0),
                ));
            }
            let acid = of.titratable_acid_grams();
            let pure = of.grams_of_all(&Component::ACIDS) > 0.5;
            if acid > 0.002 && !pure && !is_measured(ingredient) {
                let by = (NATURAL_ACID / 100.0).min(0.3 * acid);
                all.push(input(format!("the acid of {}", ingredient.name), Cause::Acid, sourer(of, by)));
            }
            if of.grams_of(Component::Ethanol) > 0.0 {
                all.push(input(format!("the label strength of {}", ingredient.name), Cause::Label, stronger(of)));
            }
            all
        }
        What::Formula(place) => solved
            .inner
            .get(*place)
            .and_then(|(inner, _)| {
                super::find(&super::of(inner, instruments), crate::formula::TargetKind::Brix).cloned()
            })
            .map(|doubt| {
                input(format!("the Brix of {}", part.of), Cause::Composition, richer(of, doubt.half_width / 100.0))
            })
            .into_iter()
            .collect(),
        What::Stage(_) => Vec::new(),
    }
}

/// A house that gives its own reading has measured it.
fn is_measured(ingredient: &Ingredient) -> bool {
    matches!(ingredient.origin, Origin::House(_)) && ["label", "analysis"].contains(&ingredient.status.as_str())
}

/// Half-width of the dissolved solids, g per 100 g; `None` where they are known by definition.
fn solids_spread(ingredient: &Ingredient, instruments: &Instruments) -> Option<f64> {
    let of = &ingredient.per_gram;
    let status = ingredient.status.as_str();
    if of.solids_grams() < 0.001 || status.contains("definition") || status.contains("computed") {
        None
    } else if matches!(ingredient.origin, Origin::House(_)) && status.contains("label") {
        Some(instruments.refractometer_brix)
    } else if status == "analysis" {
        Some(DRY)
    } else if status.contains("range midpoint") {
        Some(RANGE_MIDPOINT)
    } else if of.grams_of(Component::Water) < 0.05 && of.grams_of(Component::Ethanol) == 0.0 {
        Some(DRY)
    } else {
        Some(NATURAL.min(30.0 * of.solids_grams()))
    }
}

/// One gram with this much more solids, of its own kind, in place of water (fraction of a gram).
fn richer(of: &Mixture, by: f64) -> Mixture {
    let water = of.grams_of(Component::Water);
    let mut solids = *of;
    solids.set_grams(Component::Water, 0.0);
    solids.set_grams(Component::Ethanol, 0.0);
    let total = solids.total_grams();
    if total <= 0.0 || water <= 0.0 && by > 0.0 {
        return Mixture::EMPTY;
    }
    let by = by.min(0.9 * water).min(0.9 * total);
    solids * (by / total) + Mixture::of(&[(Component::Water, -by)])
}

/// One gram with this much more of its acids in place of water.
fn sourer(of: &Mixture, by: f64) -> Mixture {
    let acids = of.grams_of_all(&Component::ACIDS);
    let mut delta = Mixture::of(&[(Component::Water, -by)]);
    for acid in Component::ACIDS {
        delta.set_grams(acid, by * of.grams_of(acid) / acids);
    }
    delta
}

/// One gram with the strength of a label moved by its tolerance: ethanol in place of water.
fn stronger(of: &Mixture) -> Mixture {
    let by = LABEL_ABV / 100.0 * ETHANOL_G_PER_ML / density(of);
    Mixture::of(&[(Component::Ethanol, by), (Component::Water, -by)])
}

/// Pure ethanol at 20 °C, g/ml (OIML R 22).
const ETHANOL_G_PER_ML: f64 = 0.78924;

fn density(of: &Mixture) -> f64 {
    crate::solve::resolve::poured_g_per_ml(of).unwrap_or(1.0)
}
