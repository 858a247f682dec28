//! A card from its first stage to its size, and whether that is what the card says.

use crate::card::{Amount, Card, Makes, Part, Stage};
use crate::diagnostic::{Code, Diagnostic, Span};
use crate::spelling::fold;
use crate::units::display::short;
use crate::units::measures::Dimension;
use crate::units::{Literal, degrees_celsius, in_grams, in_millilitres};

use super::super::balance::{BalanceError, MassBalance, MassRule, Yield};
use super::super::by_hand;
use super::super::evaporation;
use super::super::explain::not_on_card;
use super::super::resolve::Material;
use super::super::stage::{self, Course, Feed, Shares};
use super::super::target::volume_ml;
use super::super::vessel::HEADROOM;
use super::super::{Solved, SolvedPart, SolvedStage};
use super::cook::{BatchSize, Cook, Options, ReadyStage, asked_ml};

impl Cook<'_> {
    pub(super) fn card(&mut self, card: &Card, options: &Options) -> Option<Solved> {
        let (mut solved, mut ready) = self.begun(card, options)?;
        let masses = self.last_masses(card, &mut ready, &solved.targets, options)?;
        // what has targets is solved as its lines stand
        let behind = card.last.behind.as_deref().filter(|_| solved.targets.is_empty());
        let mut made = self.finish((&card.last, behind), ready, &masses, card.name.span)?;
        if card.is_drink() {
            solved.ice_water = self.with_ice(card, &mut made, &solved.inner, options);
            solved.serve_as_one_glass(&made);
        }
        solved.stages.push(made);
        solved.back_through_stages();
        self.found.extend(evaporation::asked(card));
        self.found.extend(unneeded(card, &solved));
        self.compare_room(card, &solved);
        self.compare_yield(card, &solved, options);
        let mut solved = self.sized(card, solved, options)?;
        solved.index = self.solved;
        self.solved += 1;
        Some(solved)
    }

    /// A card up to its last stage, which is looked up.
    pub(super) fn begun(&mut self, card: &Card, options: &Options) -> Option<(Solved, ReadyStage)> {
        let mut solved = Solved::begun(card, options.targets(card));
        let mut complete = true;
        for stage in &card.stages {
            let made = self.early_stage(card, stage, &mut solved);
            complete &= made.is_some();
            // A stand-in keeps the places of the later stages, so that they are checked too.
            solved.stages.push(made.unwrap_or_else(|| SolvedStage {
                name: stage.name.as_ref().map(|n| n.value.clone()),
                parts: Vec::new(),
                lost: Shares::default(),
                course: Course::default(),
                behind: Vec::new(),
                in_order: false,
                pressed: Vec::new(),
            }));
        }
        let ready = self.look_up(card, &card.last, &mut solved)?;
        complete.then_some((solved, ready))
    }

    /// An earlier stage for the amounts that its card states; it is scaled to need later.
    fn early_stage(&mut self, card: &Card, stage: &Stage, solved: &mut Solved) -> Option<SolvedStage> {
        let ready = self.look_up(card, stage, solved)?;
        let ratio = ready.lines.iter().any(|l| matches!(l.rule, MassRule::Ratio(_)));
        let balance = MassBalance {
            lines: &ready.lines,
            targets: &[],
            yields: ratio.then_some(Yield::Grams(1000.0)),
            left_behind: ready.lost.left_behind,
        };
        let span = stage.name.as_ref().map_or(card.name.span, |n| n.span);
        match balance.solve() {
            Ok(masses) => self.finish((stage, stage.behind.as_deref()), ready, &masses, span),
            Err(why) => {
                self.refuse(unsolved_stage(span, &why));
                None
            }
        }
    }

    /// Runs a stage with its masses forward; something must be left of it.
    fn finish(
        &mut self,
        (stage, behind): (&Stage, Option<&[usize]>),
        ready: ReadyStage,
        masses: &[f64],
        span: Span,
    ) -> Option<SolvedStage> {
        let lines: Vec<(&Feed, f64)> = ready.parts.iter().map(|(_, feed)| feed).zip(masses.iter().copied()).collect();
        let behind = behind.filter(|behind| is_told_order(stage, &lines, ready.lost, behind)).unwrap_or_default();
        let course = stage::run_in_order(&lines, ready.lost, behind);
        if course.out.total_grams() <= 0.0 {
            let title = "nothing is left to bottle: the strained solids would keep all of the liquid";
            self.refuse(
                Diagnostic::error(Code::NothingLeft, title)
                    .at(span, "these amounts")
                    .help(
                        "use more liquid or fewer solids, or correct `holds`: (wet weight out - weight in) / weight in, below zero \
                         of what juice is pressed out of: 1,000 g of fruit that leave 600 g in the press are holds = -0.4",
                    ),
            );
            return None;
        }
        let parts = stage.parts.iter().zip(ready.parts).zip(ready.lines).zip(masses);
        let parts = parts.map(|(((part, (found, feed)), line), &mass_g)| SolvedPart {
            label: part.label.value.clone(),
            of: found.called.clone().unwrap_or_else(|| part.of.value.clone()),
            found,
            feed,
            mass_g,
            // What was chosen for a card with room was left open by it.
            solved: line.rule == MassRule::Open || part.written.literal == Literal::AsNeeded,
            written: Some(part.written.clone()),
            after_ice: part.after.is_some(),
            at_c: part.at.map(|at| degrees_celsius(at.value)),
            melts: None,
        });
        let name = stage.name.as_ref().map(|n| n.value.clone());
        Some(SolvedStage {
            name,
            parts: parts.collect(),
            lost: ready.lost,
            course,
            in_order: !behind.is_empty(),
            behind: behind.to_vec(),
            pressed: Vec::new(),
        })
    }

    pub(super) fn sized(&mut self, card: &Card, solved: Solved, options: &Options) -> Option<Solved> {
        let Some(size) = &options.size else { return Some(solved) };
        match factor(&solved, size) {
            Ok(factor) => {
                // what goes into another is scaled to it once it is known how much
                let is_asked = self.making.len() == 1;
                self.found.extend(is_asked.then(|| dashes_scaled(card, &solved, factor)).flatten());
                Some(solved.scaled(factor))
            }
            Err(error) => {
                self.refuse(error.at(card.name.span, "this card"));
                None
            }
        }
    }
}

/// What solids keep is a guess, and no more than this of what they stand in is left to it, as a share (ours).
const MOST_KEPT: f64 = 2.0 / 3.0;

/// Whether what the steps put in behind the straining can be counted so: every line says how much it is, and enough stands in front
/// of the strainer for what its solids keep.
fn is_told_order(stage: &Stage, lines: &[(&Feed, f64)], lost: Shares, behind: &[usize]) -> bool {
    let is_plain = stage.parts.iter().all(Part::has_size) && stage.loss.evaporated_as_needed.is_none();
    let in_front = stage::in_front(lines, lost, behind);
    let (kept, out) = (in_front.kept.total_grams(), in_front.out.total_grams());
    is_plain && out > 0.0 && kept <= MOST_KEPT * (kept + out + in_front.left_behind_g)
}

fn unsolved_stage(at: Span, why: &BalanceError) -> Diagnostic {
    let (code, title, help) = match why {
        BalanceError::NoDensity(_) | BalanceError::NoDensityFits => (
            Code::NoDensity,
            format!("the density of this stage cannot be computed ({why})"),
            "write its amounts by weight, without doses per litre",
        ),
        BalanceError::Negative(_) | BalanceError::Singular | BalanceError::Count { .. } => (
            Code::TooManyOpen,
            "the amounts of this stage do not add up".to_owned(),
            "give every part of a stage an amount, or all of them one ratio; doses and shares must leave room for a liquid",
        ),
    };
    Diagnostic::error(code, title).at(at, "this stage").help(help)
}

/// A warning for each stage and inner card of which the targets leave no gram.
fn unneeded<'a>(card: &'a Card, solved: &'a Solved) -> impl Iterator<Item = Diagnostic> + 'a {
    let parts = solved.parts().zip(card.all_parts().map(|(_, written)| written));
    let nothing = parts.filter(|(part, _)| part.mass_g == 0.0 && !matches!(part.found.what, Material::Ingredient(_)));
    nothing.map(|(part, written)| {
        Diagnostic::warning(Code::Unused, format!("nothing of `{}` is needed for these targets", part.of))
            .at(written.of.span, "0 g of it: what it is made of is not weighed")
            .help("do not make it for this batch; or ask for targets that need it")
    })
}

/// A batch of fewer or more times the card than this is not the one that its dashes were tasted in (ours).
pub(super) const FAR: f64 = 3.0;
/// What is smaller is a dose for the tongue and no measure for a batch, ml (ours: below a teaspoon).
const DOSE_ML: f64 = 4.0;

/// A question, once a card: whether what was dosed by the dash is meant for a batch of another size.
fn dashes_scaled(card: &Card, solved: &Solved, factor: f64) -> Option<Diagnostic> {
    let is_far = !(1.0 / FAR..=FAR).contains(&factor);
    let is_dose = |part: &SolvedPart| {
        let measure = part.written.as_ref().and_then(|written| written.measure);
        by_hand::count(part).is_some()
            && measure.is_some_and(|m| m.dimension == Dimension::Volume && m.factor < DOSE_ML)
    };
    let parts = solved.parts().zip(card.all_parts().map(|(_, written)| written));
    let doses: Vec<_> = parts.filter(|(part, _)| is_far && is_dose(part)).collect();
    let (first, _) = doses.first()?;
    let becomes = by_hand::words(&first.scaled(factor))?;
    let times = if factor > 1.0 { format!("{} times", short(factor)) } else { format!("1/{} of", short(1.0 / factor)) };
    let title = format!("the batch is {times} the card, and so are its dashes: {becomes}");
    let asked = Diagnostic::warning(Code::Understood, title);
    let asked =
        doses.iter().fold(asked, |said, (_, written)| said.at(written.amount.span, "meant for a batch of this size?"));
    Some(asked.help(
        "taste before the last third goes in; what is meant for any size is written in ml or per litre (\"6 ml/L\")",
    ))
}

fn factor(solved: &Solved, size: &BatchSize) -> Result<f64, Diagnostic> {
    let no_volume = || {
        Diagnostic::error(
            Code::NoDensity,
            "this batch cannot be brought to that volume: its density cannot be computed",
        )
        .help("ask for a weight instead (--make \"1 kg\")")
    };
    let factor = match size {
        BatchSize::Makes(Makes::Mass(mass)) => in_grams(*mass) / solved.bottled().total_grams(),
        BatchSize::Makes(other) => asked_ml(other) / volume_ml(solved.bottled()).ok_or_else(no_volume)?,
        BatchSize::Pot(pot) => in_millilitres(*pot) / 1000.0 / (HEADROOM * solved.fullest_l()),
        BatchSize::From(name, amount) => factor_from(solved, name, amount)?,
    };
    if factor.is_finite() && factor > 0.0 { Ok(factor) } else { Err(no_volume()) }
}

fn factor_from(solved: &Solved, name: &str, amount: &Amount) -> Result<f64, Diagnostic> {
    let all = || solved.parts();
    let is_it = |p: &&SolvedPart| [&p.label, &p.of].iter().any(|own| fold(own) == fold(name));
    let used: f64 = all().filter(is_it).map(|p| p.mass_g).sum();
    let Some(first) = all().find(is_it).filter(|_| used > 0.0) else {
        return Err(not_on_card(name, all().map(|p| p.label.as_str())));
    };
    let have_g = match amount {
        Amount::Mass(m) => Some(in_grams(*m)),
        Amount::Volume(v) => first.found.g_per_ml.map(|d| in_millilitres(*v) * d),
        _ => None,
    };
    have_g.map(|have_g| have_g / used).ok_or_else(|| {
        Diagnostic::error(Code::WrongDimension, format!("how much `{name}` there is must be a weight or a volume"))
            .help("write for example --from \"white sugar=3 kg\"")
    })
}
