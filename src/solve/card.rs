//! A card, brought to the engine: looked up, stage by stage, solved for its last stage, and scaled
//! back through the earlier ones.

use std::collections::HashMap;
use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic, Span, Spanned, any_error};
use crate::formula::{self, Formula, Makes, Part, Stage, TargetKind, folded};
use crate::house::{House, SourceFile};
use crate::mixture::{Component, Mixture};
use crate::quantity::display::grouped;
use crate::quantity::{Volume, celsius, grams, in_grams, in_kg_per_m3, in_millilitres};

use super::balance::{Balance, Goal, Line, Rule, Yield, value_of};
use super::resolve::{Found, What, unknown};
use super::stage::{self, Feed, Shares};
use super::{HEADROOM, Solved, SolvedPart, SolvedStage, explain, ph};

/// How large a batch is asked for, over what the card says.
#[derive(Clone, Debug, PartialEq)]
pub enum Size {
    /// This much in the bottle.
    Makes(Makes),
    /// As much as this many grams or millilitres of one part allow.
    From(String, formula::Amount),
    /// As much as a pot of this size takes with room to stir.
    Pot(Volume),
}

/// What is asked beyond the card.
#[derive(Clone, Debug, Default)]
pub struct Options {
    /// Another batch size.
    pub size: Option<Size>,
    /// Targets in place of, or beside, the card's.
    pub set: Vec<Goal>,
}

impl Options {
    /// The size that is asked for: by the command, else by the card. `None` where another amount decides it.
    pub fn asked(&self, card: &Formula) -> Option<Makes> {
        match &self.size {
            Some(Size::Makes(makes)) => Some(*makes),
            Some(Size::From(..) | Size::Pot(_)) => None,
            None => card.makes.as_ref().map(|m| m.value),
        }
    }
}

/// The answer, as far as there is one, and all that was found on the way.
#[derive(Clone, Debug)]
pub struct Outcome {
    /// The solved card. There may be one beside errors: what the amounts really give.
    pub solved: Option<Solved>,
    /// What was found.
    pub diagnostics: Vec<Diagnostic>,
}

/// In a house of more formulas than this a misspelt part is not held against the name of every one of them: with
/// as many slips as cards that would take longer than all the rest.
const MOST_NAMES: usize = 1000;

/// Solves a card in its house.
pub fn solve(card: &Formula, house: &House, options: &Options) -> Outcome {
    let mut cook = Cook { house, making: vec![Making::of(&card.name.value)], made: HashMap::new(), found: Vec::new() };
    let solved = cook.card(card, options);
    let diagnostics = cook.found.into_iter().map(|d| d.in_file(&card.file)).collect();
    Outcome { solved, diagnostics }
}

struct Cook<'a> {
    house: &'a House,
    /// The formulas being made, outermost first: a name that comes again closes a ring.
    making: Vec<Making>,
    /// Formulas made already, by folded name.
    made: HashMap<String, Option<Arc<Solved>>>,
    found: Vec<Diagnostic>,
}

/// A formula that is being made.
struct Making {
    folded: String,
    /// As it was written.
    name: String,
}

impl Making {
    fn of(name: &str) -> Self {
        Self { folded: folded(name), name: name.to_owned() }
    }
}

/// A stage whose parts have been looked up.
struct Ready {
    parts: Vec<(Found, Feed)>,
    lines: Vec<Line>,
    lost: Shares,
}

impl Cook<'_> {
    fn card(&mut self, card: &Formula, options: &Options) -> Option<Solved> {
        let mut solved = Solved {
            card: Arc::new(card.clone()),
            name: card.name.value.clone(),
            stages: Vec::new(),
            inner: Vec::new(),
            goals: Vec::new(),
        };
        let mut complete = true;
        for stage in &card.stages {
            match self.early_stage(card, stage, &mut solved) {
                Some(ready) => solved.stages.push(ready),
                None => {
                    complete = false;
                    // A stand-in keeps the places of the later stages, so that they are checked too.
                    solved.stages.push(SolvedStage {
                        name: stage.name.as_ref().map(|n| n.value.clone()),
                        parts: Vec::new(),
                        lost: Shares::default(),
                        course: stage::Course::default(),
                    });
                }
            }
        }
        let mut ready = self.look_up(card, &card.last, &mut solved)?;
        if !complete {
            return None;
        }
        let goals = goals_of(card, options);
        solved.goals.clone_from(&goals);
        let masses = self.last_masses(card, &mut ready, &goals, options)?;
        let made = finish(&card.last, ready, &masses);
        if made.course.out.total_grams() <= 0.0 {
            self.found.push(nothing_left(card.name.span));
            return None;
        }
        solved.stages.push(made);
        back_through_stages(&mut solved);
        self.compare_yield(card, &solved, options);
        let solved = self.sized(card, solved, options)?;
        Some(solved)
    }

    /// An earlier stage for the amounts that its card states; it is scaled to need later.
    fn early_stage(&mut self, card: &Formula, stage: &Stage, solved: &mut Solved) -> Option<SolvedStage> {
        let ready = self.look_up(card, stage, solved)?;
        let ratio = ready.lines.iter().any(|l| matches!(l.rule, Rule::Ratio(_)));
        let balance = Balance {
            lines: &ready.lines,
            goals: &[],
            yields: ratio.then_some(Yield::Grams(1000.0)),
            left_behind: ready.lost.left_behind,
        };
        let span = stage.name.as_ref().map_or(card.name.span, |n| n.span);
        match balance.solve() {
            Ok(masses) => {
                let made = finish(stage, ready, &masses);
                if made.course.out.total_grams() <= 0.0 {
                    self.found.push(nothing_left(span));
                    return None;
                }
                Some(made)
            }
            Err(trouble) => {
                self.found.push(explain::stage_trouble(&trouble, span));
                None
            }
        }
    }

    /// Looks up every part of a stage, so that all unknown names are reported in one run.
    fn look_up(&mut self, card: &Formula, stage: &Stage, solved: &mut Solved) -> Option<Ready> {
        let lost = Shares {
            evaporated: stage.loss.evaporated.map_or(0.0, |x| x.value),
            left_behind: stage.loss.left_behind.map_or(0.0, |x| x.value),
        };
        let mut ready = Ready { parts: Vec::new(), lines: Vec::new(), lost };
        for part in &stage.parts {
            let Some(found) = self.find(card, part, solved) else { continue };
            let feed = found.feed(part, &mut self.found);
            let rule = found.rule(part, &mut self.found);
            if let (Some(feed), Some(rule)) = (feed, rule) {
                ready.lines.push(feed.line(lost.evaporated, rule));
                ready.parts.push((found, feed));
            }
        }
        shares_of_the_whole(&mut ready.lines);
        (ready.lines.len() == stage.parts.len() && !ready.lines.is_empty()).then_some(ready)
    }

    /// A stage of this card, a formula of the house, or an ingredient: in that order.
    fn find(&mut self, card: &Formula, part: &Part, solved: &mut Solved) -> Option<Found> {
        let name = part.of.value.as_str();
        let key = folded(name);
        let is_it = |n: &str| folded(n) == key;
        let mut made = solved.stages.iter().enumerate();
        if let Some((place, stage)) = made.find(|(_, s)| s.name.as_deref().is_some_and(is_it)) {
            // A stage that failed has been reported where it stands.
            return (!stage.parts.is_empty()).then(|| Found::liquid(What::Stage(place), &stage.course.out));
        }
        if card.stages.iter().any(|s| s.name.as_ref().is_some_and(|n| is_it(&n.value))) {
            self.found.push(
                Diagnostic::error(Code::StageOrder, format!("the stage `{name}` is used before it is made"))
                    .at(part.of.span, "used here")
                    .help("stages are made in the order of the card: move that stage above this one"),
            );
            return None;
        }
        if (!is_it(&card.name.value) || self.house.larder.find(name).is_none())
            && let Some(result) = self.inner_formula(part, solved)
        {
            return result;
        }
        match self.house.larder.find(name) {
            Some(ingredient) => Some(Found::ingredient(ingredient)),
            None => {
                let stages = card.stages.iter().filter_map(|s| s.name.as_ref().map(|n| n.value.as_str()));
                let formulas = self.house.formulas().map(|f| f.name.as_str());
                let few = formulas.clone().nth(MOST_NAMES).is_none();
                let near = crate::text::nearest(name, stages.chain(formulas.filter(|_| few)))
                    .map(str::to_owned)
                    .or_else(|| self.house.larder.suggest(name).map(str::to_owned));
                self.found.push(unknown(part, near));
                None
            }
        }
    }

    /// Another formula of the house. `None`: there is none of that name; `Some(None)`: there is,
    /// and it cannot be made (reported).
    fn inner_formula(&mut self, part: &Part, solved: &mut Solved) -> Option<Option<Found>> {
        let name = part.of.value.as_str();
        let file = self.house.formula(name)?;
        let key = folded(name);
        if let Some(start) = self.making.iter().position(|m| m.folded == key) {
            let mut ring: Vec<&str> = self.making[start..].iter().map(|m| m.name.as_str()).collect();
            ring.push(name);
            self.found.push(
                Diagnostic::error(Code::FormulaRing, format!("a ring of formulas: {}", ring.join(" -> ")))
                    .at(part.of.span, "closes the ring")
                    .help("a product cannot be made from itself: take one of these parts out, or buy it in"),
            );
            return Some(None);
        }
        let inner = match self.made.get(&key) {
            Some(made) => made.clone(),
            None => {
                self.making.push(Making { folded: key.clone(), name: name.to_owned() });
                let inner = self.make_inner(part, file).map(Arc::new);
                self.making.pop();
                self.made.insert(key, inner.clone());
                inner
            }
        };
        Some(inner.map(|inner| {
            let known = solved.inner.iter().position(|(own, _)| Arc::ptr_eq(own, &inner));
            let place = known.unwrap_or(solved.inner.len());
            let found = Found::liquid(What::Formula(place), inner.bottled());
            if known.is_none() {
                solved.inner.push((inner, 0.0));
            }
            found
        }))
    }

    fn make_inner(&mut self, part: &Part, file: Result<SourceFile, Box<Diagnostic>>) -> Option<Solved> {
        let before = self.found.len();
        let (card, mut found) = match file {
            Ok(source) => formula::read(source.file, source.text),
            Err(unread) => (None, vec![*unread]),
        };
        let readable = !any_error(&found);
        self.found.append(&mut found);
        let solved = match card {
            Some(card) if readable => {
                let start = self.found.len();
                // What goes in is weighed for the outer card: any size of a card that states none will do.
                let size = card.makes.is_none().then(|| Size::Makes(Makes::Mass(grams(1000.0))));
                let solved = self.card(&card, &Options { size, ..Options::default() });
                for diagnostic in &mut self.found[start..] {
                    *diagnostic = diagnostic.clone().in_file(&card.file);
                }
                solved
            }
            _ => None,
        };
        let found = &self.found[before..];
        let failed = solved.is_none() || any_error(found);
        // A ring says all of it at once.
        if failed && found.iter().any(|d| d.code == Code::FormulaRing) {
            return None;
        }
        if failed {
            self.found.push(
                Diagnostic::error(
                    Code::InnerFormula,
                    format!("`{}` cannot be made as its own card stands", part.of.value),
                )
                .at(part.of.span, "this formula of the house is needed here")
                .help("mend that card first: what is wrong with it is listed with it"),
            );
            return None;
        }
        solved
    }

    /// The masses of the last stage.
    fn last_masses(
        &mut self,
        card: &Formula,
        ready: &mut Ready,
        goals: &[Goal],
        options: &Options,
    ) -> Option<Vec<f64>> {
        let mut lines = ready.lines.clone();
        if card.last.loss.evaporated_as_needed.is_some() {
            lines.push(Line::boiled_off());
        }
        let lines = &lines;
        let ratio = lines.iter().any(|l| matches!(l.rule, Rule::Ratio(_)));
        let sized = options.size.is_some();
        let makes = match &options.size {
            // A card that says nothing of its size can be made in the size that is asked for.
            Some(Size::Makes(makes)) if card.makes.is_none() => Some(*makes),
            _ => card.makes.as_ref().map(|m| m.value),
        };
        let mut balance = Balance { lines, goals, yields: None, left_behind: ready.lost.left_behind };
        let unknowns = balance.unknowns();
        // Where no amount is written the size is a rule that cannot be left to a comparison.
        let anchored = lines.iter().any(|l| matches!(l.rule, Rule::Fixed(g) if g > 0.0));
        let by_size = unknowns > 0 && (unknowns == goals.len() + 1 || (!anchored && unknowns <= goals.len()));
        if by_size {
            // A size taken from one part scales the whole card: any size will do to begin with.
            let any_size = sized.then_some(Yield::Grams(1000.0));
            balance.yields = makes.map(|m| yield_of(&m)).or(any_size);
            if balance.yields.is_none() {
                self.found.push(explain::no_size(card, ratio));
                return None;
            }
        } else if unknowns > goals.len() + 1 {
            self.found.push(explain::too_few_rules(card, lines, goals, makes.is_some()));
            return None;
        }
        let kept = goals.len().min(if by_size { unknowns - 1 } else { unknowns });
        let (used, rest) = goals.split_at(kept);
        balance.goals = used;
        let masses = match used.iter().position(|(kind, _)| *kind == TargetKind::Ph) {
            None => balance.solve().map_err(|trouble| explain::trouble(card, &balance, &trouble)),
            Some(index) => {
                ph::masses(&balance, index).map_err(|why| explain::no_ph_masses(card, &balance, index, &why))
            }
        };
        match masses {
            Ok(masses) if masses.iter().all(|m| *m == 0.0) => {
                self.found.push(explain::not_the_whole(card));
                None
            }
            Ok(masses) => {
                let liquid = lines.iter().zip(&masses).map(|(l, m)| l.joins * *m).sum();
                self.compare_goals(card, &balance, rest, liquid);
                self.evaporated_as_found(card, ready, &masses)?;
                Some(masses)
            }
            Err(why) => {
                self.found.extend(why);
                None
            }
        }
    }

    /// Puts the water that was found to boil off, the mass behind those of the parts, in place of a share
    /// that the card states.
    fn evaporated_as_found(&mut self, card: &Formula, ready: &mut Ready, masses: &[f64]) -> Option<()> {
        let Some(&boiled_off) = masses.get(ready.parts.len()) else { return Some(()) };
        let parts = ready.parts.iter().zip(masses);
        let water: f64 = parts.map(|((_, feed), m)| feed.per_gram.grams_of(Component::Water) * m).sum();
        if boiled_off > water {
            self.found.push(explain::too_little_water(card));
            return None;
        }
        ready.lost.evaporated = if water > 0.0 { boiled_off / water } else { 0.0 };
        Some(())
    }

    /// Whether the targets that fixed nothing are met all the same.
    fn compare_goals(&mut self, card: &Formula, balance: &Balance<'_>, goals: &[Goal], liquid: Mixture) {
        for &(kind, asked) in goals {
            if kind == TargetKind::Ph {
                self.found.extend(match ph::of(&liquid) {
                    Ok(gives) => explain::goal_differs(card, balance, (kind, asked), gives),
                    Err(why) => Some(explain::no_ph(card, asked, &why)),
                });
            } else if let Some(gives) = value_of(kind, &liquid) {
                self.found.extend(explain::goal_differs(card, balance, (kind, asked), gives));
            }
        }
    }

    /// Where the amounts alone give a size and the card states one too: do they agree?
    fn compare_yield(&mut self, card: &Formula, solved: &Solved, options: &Options) {
        if options.size.is_some() && card.makes.is_none() {
            return;
        }
        let Some(makes) = &card.makes else { return };
        let (asked, gives, unit) = match makes.value {
            Makes::Mass(m) => (in_grams(m), solved.bottled().total_grams(), "g"),
            other => match volume_ml(solved.bottled()).filter(|_| !solved.bottled().is_dry()) {
                Some(ml) => (asked_ml(&other), ml, "ml"),
                None => return self.found.push(explain::dry(makes.span)),
            },
        };
        self.found.extend(explain::yield_differs(makes.span, asked, gives, unit));
    }

    /// Brings the batch to the size that is asked for.
    fn sized(&mut self, card: &Formula, solved: Solved, options: &Options) -> Option<Solved> {
        let factor = match &options.size {
            None => 1.0,
            Some(Size::Makes(Makes::Mass(mass))) => in_grams(*mass) / solved.bottled().total_grams(),
            Some(Size::Makes(other)) => match volume_ml(solved.bottled()) {
                Some(ml) => asked_ml(other) / ml,
                None => {
                    self.found.push(explain::no_volume(card.name.span));
                    return None;
                }
            },
            Some(Size::Pot(pot)) => in_millilitres(*pot) / 1000.0 / (HEADROOM * solved.fullest_l()),
            Some(Size::From(name, amount)) => self.factor_from(card, &solved, name, amount)?,
        };
        if !(factor.is_finite() && factor > 0.0) {
            self.found.push(explain::no_volume(card.name.span));
            return None;
        }
        Some(solved.scaled(factor))
    }

    fn factor_from(&mut self, card: &Formula, solved: &Solved, name: &str, amount: &formula::Amount) -> Option<f64> {
        let parts: Vec<&SolvedPart> = solved
            .stages
            .iter()
            .flat_map(|s| &s.parts)
            .filter(|p| [&p.label, &p.of].iter().any(|own| folded(own) == folded(name)))
            .collect();
        let used: f64 = parts.iter().map(|p| p.mass_g).sum();
        let Some(first) = parts.first().filter(|_| used > 0.0) else {
            let names = solved.stages.iter().flat_map(|s| &s.parts).map(|p| p.label.as_str());
            let near = crate::text::nearest(name, names.clone());
            let listed: Vec<_> = names.collect();
            self.found.push(
                Diagnostic::error(Code::UnknownIngredient, format!("the card uses no `{name}`"))
                    .at(card.name.span, "this card")
                    .help(near.map_or_else(
                        || format!("its parts are: {}", listed.join(", ")),
                        |n| format!("did you mean `{n}`?"),
                    )),
            );
            return None;
        };
        let have_g = match amount {
            formula::Amount::Mass(m) => Some(in_grams(*m)),
            formula::Amount::Volume(v) => first.found.g_per_ml.map(|d| in_millilitres(*v) * d),
            _ => None,
        };
        if have_g.is_none() {
            self.found.push(
                Diagnostic::error(
                    Code::WrongDimension,
                    format!("how much `{name}` there is must be a weight or a volume"),
                )
                .at(card.name.span, "this card")
                .help("write for example --from \"white sugar=3 kg\""),
            );
        }
        Some(have_g? / used)
    }
}

/// A card in percentages that make up the whole is a ratio by weight: one scale is open, not none.
fn shares_of_the_whole(lines: &mut [Line]) {
    let share = |l: &Line| match l.rule {
        Rule::Share(p) if (l.joins.total_grams() - 1.0).abs() < 1e-9 && l.keeps == 0.0 => Some(p),
        _ => None,
    };
    let whole: Option<f64> = lines.iter().map(share).sum();
    if whole.is_some_and(|sum| (sum - 1.0).abs() < 1e-6) {
        for line in lines {
            if let Rule::Share(p) = line.rule {
                line.rule = Rule::Ratio(p);
            }
        }
    }
}

/// What a name means beside a solved card: one of its stages, a formula of the house, or an ingredient. A
/// formula that is found joins the inner ones of `solved`.
///
/// # Errors
/// Where nothing has this name, or the formula cannot be made.
pub fn find(card: &Formula, house: &House, name: &str, solved: &mut Solved) -> Result<Found, Vec<Diagnostic>> {
    let making = vec![Making::of(&card.name.value)];
    let mut cook = Cook { house, making, made: HashMap::new(), found: Vec::new() };
    let spanned = Spanned::new(name.to_owned(), card.name.span);
    let part = Part {
        label: spanned.clone(),
        of: spanned,
        amount: Spanned::new(formula::Amount::AsNeeded, card.name.span),
        written: String::new(),
        strained: false,
        holds: None,
    };
    let found = cook.find(card, &part, solved);
    found.ok_or_else(|| {
        // The name was not read from the card: only what was found in other files has a place.
        let placeless = |mut d: Diagnostic| {
            if d.file.is_none() {
                d.labels.clear();
                d.fix = None;
            }
            d
        };
        cook.found.into_iter().map(placeless).collect()
    })
}

/// The targets: the card's in card order, those of the command line over them.
fn goals_of(card: &Formula, options: &Options) -> Vec<Goal> {
    let mut goals: Vec<Goal> = card.targets.iter().map(|t| (t.kind, t.value)).collect();
    for &(kind, value) in &options.set {
        match goals.iter_mut().find(|(k, _)| *k == kind) {
            Some(goal) => goal.1 = value,
            None => goals.push((kind, value)),
        }
    }
    goals
}

/// The millilitres at 20 °C of what is asked for; 0 for a mass.
pub fn asked_ml(makes: &Makes) -> f64 {
    match makes {
        Makes::Volume(v) => in_millilitres(*v),
        Makes::Bottles { count, each } => count * in_millilitres(*each),
        Makes::Mass(_) => 0.0,
    }
}

fn yield_of(makes: &Makes) -> Yield {
    match makes {
        Makes::Mass(m) => Yield::Grams(in_grams(*m)),
        other => Yield::Millilitres(asked_ml(other)),
    }
}

/// Millilitres at 20 °C of a liquid, where its density can be computed.
pub fn volume_ml(liquid: &Mixture) -> Option<f64> {
    let density = liquid.density(celsius(20.0)).ok()?;
    Some(liquid.total_grams() / in_kg_per_m3(density.value) * 1000.0)
}

fn finish(stage: &Stage, ready: Ready, masses: &[f64]) -> SolvedStage {
    let course = stage::run(ready.parts.iter().map(|(_, feed)| feed).zip(masses.iter().copied()), ready.lost);
    let parts = stage
        .parts
        .iter()
        .zip(ready.parts)
        .zip(ready.lines)
        .zip(masses)
        .map(|(((part, (found, feed)), line), &mass_g)| SolvedPart {
            label: part.label.value.clone(),
            of: part.of.value.clone(),
            found,
            feed,
            mass_g,
            solved: line.rule == Rule::Open,
            written: part.written.clone(),
        })
        .collect();
    SolvedStage { name: stage.name.as_ref().map(|n| n.value.clone()), parts, lost: ready.lost, course }
}

/// Scales every earlier stage to what the later ones take of it, and counts the inner formulas.
pub(super) fn back_through_stages(solved: &mut Solved) {
    for place in (0..solved.stages.len().saturating_sub(1)).rev() {
        let later = solved.stages[place + 1..].iter().flat_map(|s| &s.parts);
        let need: f64 = later.filter(|p| p.stage() == Some(place)).map(|p| p.mass_g).sum();
        let stage = &mut solved.stages[place];
        let made = stage.course.out.total_grams();
        // A stage that nothing uses is left as its card states it: the reader of the card has said so.
        if need > 0.0 && made > 0.0 {
            let factor = need / made;
            for part in &mut stage.parts {
                part.mass_g *= factor;
            }
            stage.course = stage.course.scaled(factor);
        }
    }
    for place in 0..solved.inner.len() {
        solved.inner[place].1 = solved.inner_grams(place);
    }
}

fn nothing_left(span: Span) -> Diagnostic {
    Diagnostic::error(Code::NothingLeft, "nothing is left to bottle: the strained solids would keep all of the liquid")
        .at(span, "these amounts")
        .help("use more liquid or fewer solids, or correct `holds`")
}

/// A goal for a message.
pub fn goal_words(kind: TargetKind, value: f64) -> String {
    let figure = goal_figure(kind, value);
    match kind {
        TargetKind::Brix => format!("{figure} °Bx"),
        TargetKind::Abv => format!("{figure} % ABV"),
        TargetKind::Sugar => format!("{figure} g/L sugar"),
        TargetKind::Acid => format!("{figure} g/L acid"),
        TargetKind::Ph => format!("pH {figure}"),
    }
}

/// Its number alone.
pub fn goal_figure(kind: TargetKind, value: f64) -> String {
    let decimals = match kind {
        TargetKind::Brix | TargetKind::Abv | TargetKind::Acid => 1,
        TargetKind::Sugar => 0,
        TargetKind::Ph => 2,
    };
    grouped(value, decimals)
}
