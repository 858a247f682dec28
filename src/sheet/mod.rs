//! Everything that is said of one solved card, put together once and read by every renderer.

pub mod acids;
mod assumed;
pub mod bench;
pub mod dosing;
pub mod keeping;
pub mod label_grade;
pub mod law;
pub mod properties;

use chrono::NaiveDate;

use crate::assessment::{self, Assessment, Which};
use crate::card::{Card, Makes, Stage, TargetKind};
use crate::diagnostic::Diagnostic;
use crate::house::House;
use crate::mixture::{Mixture, nutrition};
use crate::safety::Market;
use crate::shelf_life::Draws;
use crate::solver::card::volume_ml;
use crate::solver::vessel::vessel_l;
use crate::solver::{Solved, SolvedStage, batch_size, weighing};
use crate::uncertainty::{self, Doubt};
use crate::units::{Abv, Temperature, celsius, in_millilitres, millilitres};

pub use crate::solver::weighing::{Stock, WeighGoes, WeighLine, Weighing};
pub use bench::{Bench, Fills, MakeUp};
pub use keeping::Clear;
pub use label_grade::LabelGrade;
pub use properties::Properties;

/// A stage as it is worked at the bench.
#[derive(Clone, Debug)]
pub struct StageSheet {
    /// Its name; `None` for the card's own parts.
    pub name: Option<String>,
    /// Whether nothing of it goes on: then there is nothing to add.
    pub nothing_needed: bool,
    /// What to add, in tare order.
    pub lines: Vec<WeighLine>,
    /// The heating in words, as the card states it.
    pub heated: Option<String>,
    /// How long it takes, as the card states it.
    pub takes: Option<String>,
    /// What the pan must hold after heating or drying, grams, where water goes up.
    pub finish_g: Option<f64>,
    /// Water that goes up, grams.
    pub evaporated_g: f64,
    /// The share of the water that goes up.
    pub evaporated_share: f64,
    /// The flash point of what is in it, °C, where it holds spirit.
    pub flash_point_c: Option<f64>,
    /// Whether what is finished is solid (dried), so that no water can be added back.
    pub dries: bool,
    /// What is strained out.
    pub strained: Option<Strained>,
    /// What the stage gives, grams.
    pub out_g: f64,
    /// What stays in the pan and the funnel, grams.
    pub left_behind_g: f64,
}

/// The wet solids that stay in the strainer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strained {
    /// Their wet weight, grams.
    pub wet_g: f64,
    /// The liquid in them, grams.
    pub liquid_g: f64,
    /// The pure alcohol in that liquid, millilitres.
    pub alcohol_ml: f64,
}

/// One measure as it is served.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Serving {
    /// Millilitres.
    pub ml: f64,
    /// Grams of sugar in it.
    pub sugar_g: Option<f64>,
    /// UK units of alcohol in it.
    pub uk_units: Option<f64>,
    /// US standard drinks in it.
    pub us_drinks: Option<f64>,
    /// Energy in kJ and kcal.
    pub energy: Option<(f64, f64)>,
}

/// Everything that is said of one solved card.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// The product's name.
    pub name: String,
    /// What was asked for, if a size was.
    pub makes: Option<Makes>,
    /// The exact answer.
    pub exact: Solved,
    /// What the rounded sheet makes: this is what is printed.
    pub weighed: Solved,
    /// The stages as they are worked.
    pub stages: Vec<StageSheet>,
    /// Properties of the exact answer.
    pub properties: Properties,
    /// Properties of what the rounded sheet makes.
    pub as_weighed: Properties,
    /// How sure the headline numbers are.
    pub doubts: Vec<Doubt>,
    /// Whether the strength is good enough for a label, by tolerance.
    pub label_grades: Vec<LabelGrade>,
    /// What the maker can check.
    pub bench: Bench,
    /// Acids that are dosed in two goes, with a taste between.
    pub dosing: Vec<dosing::Dose>,
    /// How the bottles are filled, if bottles were asked for.
    pub fills: Option<Fills>,
    /// How it is made by the jug, if it is a spirit that is thinned.
    pub make_up: Option<MakeUp>,
    /// The smallest usual vessel that holds the batch, litres.
    pub vessel_l: Option<f64>,
    /// Whether it stays clear, store by store.
    pub clear: Option<Clear>,
    /// The date in the store that it is planned for, and every caution.
    pub dated: Assessment,
    /// One measure.
    pub serving: Option<Serving>,
    /// The method, a step a line.
    pub steps: Vec<String>,
    /// What was taken for granted.
    pub assumed: Vec<String>,
    /// Where the card comes from.
    pub source: Option<String>,
    /// What else the maker should know.
    pub notes: Option<String>,
}

impl Sheet {
    /// Puts a sheet together, with what could not be said and why.
    /// `makes` is the size that was asked for, at `at` the properties are given, on `made` the batch is made.
    pub fn of(
        card: &Card,
        exact: Solved,
        house: &House,
        makes: Option<Makes>,
        at: Temperature,
        made: NaiveDate,
    ) -> (Self, Vec<Diagnostic>) {
        let instruments = &house.settings.instruments;
        let hows = weighing::ways(&exact, instruments);
        let weighed = weighing::as_weighed(&exact, &hows);
        let span = card.name.span;
        let acidity = acids::of(&exact, &house.settings.instruments);
        let properties_of = |solved: &Solved, at| match solved.is_dry() {
            true => Properties::of_dried(solved.bottled(), at, span),
            false => Properties::of(solved.bottled(), at, house, span, &acidity),
        };
        let (properties, mut diagnostics) = properties_of(&exact, at);
        let (as_weighed, _) = properties_of(&weighed, at);
        let (at_20, _) = properties_of(&weighed, celsius(20.0));
        let card_stages = card.stages.iter().chain([&card.last]);
        let stages: Vec<_> = weighed
            .stages
            .iter()
            .zip(card_stages)
            .zip(&hows)
            .map(|((made, stage), hows)| {
                stage_sheet(made, stage, weighing::lines(made, hows, instruments), exact.is_dry())
            })
            .collect();
        let serving = card.serving.map(|s| serving(in_millilitres(s.value), &at_20));
        let doubts = uncertainty::of(&exact, instruments);
        let markets: Vec<Market> = house.settings.markets.iter().filter_map(|code| Market::from_code(code)).collect();
        let abv = as_weighed.abv_pct.zip(uncertainty::find(&doubts, TargetKind::Abv));
        let label_grades =
            abv.map_or_else(Vec::new, |(abv, doubt)| label_grade::of(weighed.bottled(), abv, doubt, &markets));
        let (dated, found) = assessment::assess(&exact, house, made, Which::Planned, Draws::default());
        diagnostics.extend(found);
        diagnostics.extend(law::of_class(card, &exact));
        diagnostics
            .extend(batch_size::check(&exact, &house.settings.instruments).map(|d| d.at(span, "of this product")));
        diagnostics.extend(keeping::over_saturated(exact.bottled()).map(|d| d.at(span, "of this product")));
        let sheet = Self {
            dated,
            name: card.name.value.clone(),
            makes,
            stages,
            doubts,
            label_grades,
            bench: Bench::of(&weighed, &at_20),
            dosing: dosing::of(card, &weighed),
            fills: makes.and_then(|m| Fills::of(&m, &weighed)),
            make_up: MakeUp::of(&weighed),
            vessel_l: vessel_l(&weighed),
            clear: Clear::of(&weighed, house),
            serving,
            steps: card.steps.clone(),
            assumed: assumed::assumed(card, &exact, house),
            source: card.source.clone(),
            notes: card.notes.clone(),
            exact,
            weighed,
            properties,
            as_weighed,
        };
        (sheet, diagnostics.into_iter().map(|d| d.in_file(&card.file)).collect())
    }

    /// The liquid in the pan: heated and strained, before any of it is left behind.
    pub fn in_the_pan(&self) -> Mixture {
        let course = &self.weighed.last().course;
        course.out.per_gram() * (course.out.total_grams() + course.left_behind_g)
    }

    /// What it makes, grams.
    pub fn yield_g(&self) -> f64 {
        self.weighed.bottled().total_grams()
    }

    /// What it makes at 20 °C, millilitres; `None` for a solid.
    pub fn yield_ml(&self) -> Option<f64> {
        self.properties.density_kg_m3.and_then(|_| volume_ml(self.weighed.bottled()))
    }
}

fn stage_sheet(made: &SolvedStage, stage: &Stage, lines: Vec<WeighLine>, dried: bool) -> StageSheet {
    let course = &made.course;
    StageSheet {
        name: made.name.clone(),
        nothing_needed: course.combined.total_grams() == 0.0,
        lines,
        heated: stage.heated.map(|h| heated_words(&h.value)),
        takes: stage.takes.as_ref().map(|takes| takes.written.clone()),
        finish_g: (course.evaporated_g > 0.0).then(|| course.in_pan_g()),
        evaporated_g: course.evaporated_g,
        dries: course.out.is_dry() || (dried && made.name.is_none()),
        flash_point_c: properties::flash_point_c(&course.combined.dissolved()),
        evaporated_share: made.lost.evaporated,
        strained: made.parts.iter().any(|p| p.feed.holds.is_some()).then(|| Strained {
            wet_g: course.strained_out_g,
            liquid_g: course.kept.total_grams(),
            alcohol_ml: bench::pure_alcohol_ml(&course.kept),
        }),
        out_g: course.out.total_grams(),
        left_behind_g: course.left_behind_g,
    }
}

fn heated_words(heated: &crate::card::Heated) -> String {
    let to = crate::units::display::temperature_text(heated.to);
    match heated.hold {
        Some(hold) => format!("{to} for {:.0} min", hold.get::<uom::si::time::minute>()),
        None => to,
    }
}

fn serving(ml: f64, at_20: &Properties) -> Serving {
    let strength = at_20.abv_pct.and_then(Abv::new);
    let of_litre = |x: Option<f64>| x.map(|x| x * ml / 1000.0);
    Serving {
        ml,
        sugar_g: of_litre(at_20.sugar_g_l),
        uk_units: strength.map(|abv| nutrition::uk_units(millilitres(ml), abv)),
        us_drinks: strength.map(|abv| nutrition::us_standard_drinks(millilitres(ml), abv)),
        energy: at_20
            .energy_kj_100ml
            .zip(at_20.energy_kcal_100ml)
            .map(|(kj, kcal)| (kj * ml / 100.0, kcal * ml / 100.0)),
    }
}
