//! What the steps of a card do in the strainer that its lines do not say: who types a card writes "strain", and counts what is
//! strained out as bottled.

use crate::card::{Card, Part, Stage};
use crate::diagnostic::{Code, Diagnostic, listed};
use crate::house::House;
use crate::solver::{Solved, SolvedStage};
use crate::spelling::words;

use super::already_in::puts_nothing_in;
use super::names::Names;
use super::put_in_behind::{told, told_of};
use super::set_apart::set_apart;
use super::speaks::tells_apart;
use super::strains::{Piece, is_behind_straining, pieces as pieces_of, strains};
use super::syrup_behind::syrup_behind;
use super::taken_out::takes_out;
use super::untold::untold;
use super::words::WordList;

/// Less than this share of a stage is what a kitchen weighs wrong (ours).
const MATTERS: f64 = 0.05;

/// Warnings of the stages whose steps strain where no line is strained, or put in behind the straining what the sheet strains with
/// the rest.
pub(crate) fn held_to_steps(card: &Card, solved: &Solved, house: &House) -> Vec<Diagnostic> {
    if card.is_drink() {
        return Vec::new();
    }
    let names = Names::of(house, "");
    let of_stage = |(stage, made): (&Stage, &SolvedStage)| {
        let told = ToldStage { stage, steps: steps_of(stage, card), names };
        [told.unstrained(made), told.behind(made)]
    };
    let found = card.all_stages().zip(&solved.stages).flat_map(of_stage).flatten();
    let guessed = untold(card, house);
    let guessed = guessed.iter().filter(|untold| !untold.is_sure).map(|untold| {
        Diagnostic::warning(Code::NotStated, format!("by the steps: {}", untold.asks))
            .at(untold.place, "no line says so")
            .help("write the line, or have the step say what is done")
    });
    found.chain(guessed).map(|found| found.in_file(&card.file)).collect()
}

/// The card with what its steps put in behind a straining noted in each stage; `None` where that is nothing.
pub(crate) fn in_order(card: &Card, house: &House) -> Option<Card> {
    let late = late_parts(card, house);
    late.iter().any(|late| !late.is_empty()).then(|| {
        let mut card = card.clone();
        let stages = card.stages.iter_mut().chain([&mut card.last]);
        stages.zip(late).for_each(|(stage, late)| stage.behind = Some(late));
        card
    })
}

/// Of each stage the places of the parts that its steps put in behind the straining, where its lines strain them with the rest.
pub(crate) fn late_parts(card: &Card, house: &House) -> Vec<Vec<usize>> {
    let names = Names::of(house, "");
    let of_stage = |stage: &Stage| match &stage.behind {
        Some(known) => known.clone(),
        None if card.is_drink() || !stage.parts.iter().any(Part::is_strained) => Vec::new(),
        None => ToldStage { stage, steps: steps_of(stage, card), names }.late(),
    };
    card.all_stages().map(of_stage).collect()
}

/// The steps of a card with stages are of any of them.
fn steps_of<'a>(stage: &'a Stage, card: &'a Card) -> &'a [String] {
    if stage.name.is_none() && card.stages.is_empty() { &card.steps } else { &stage.steps }
}

/// A stage, and what its steps tell of it.
struct ToldStage<'a> {
    stage: &'a Stage,
    steps: &'a [String],
    names: Names<'a>,
}

impl ToldStage<'_> {
    fn pieces(&self) -> Vec<Piece<'_>> {
        self.steps.iter().flat_map(|step| pieces_of(step)).collect()
    }

    /// The steps strain, and no line says what.
    fn unstrained(&self, made: &SolvedStage) -> Option<Diagnostic> {
        let is_said = self.stage.washed.is_some() || self.stage.parts.iter().any(|part| part.strained.is_some());
        if is_said {
            return None;
        }
        let weighed = self.stage.parts.iter().zip(&made.parts);
        let gels = self.steps.iter().any(|step| WordList::Gelled.is_said_in(step));
        let plants: Vec<(&Part, f64)> = weighed
            .filter_map(|(part, made)| {
                let wet = self.names.gel_holds(&part.of.value).filter(|_| gels).map(|holds| 1.0 + holds);
                let wet = wet.or_else(|| self.names.is_strained_out(&part.of.value).then_some(1.0))?;
                Some((part, wet * made.mass_g))
            })
            .collect();
        let share = plants.iter().map(|(_, grams)| grams).sum::<f64>() / made.course.combined.total_grams();
        let (first, _) = plants.first().filter(|_| share >= MATTERS)?;
        let pieces = self.pieces();
        let does = match pieces.iter().any(|piece| strains(piece.text)) {
            true => "strain",
            false if takes_out(self.stage, &pieces, self.names).is_some() => "take something out",
            false => return None,
        };
        let counts = if plants.len() == 1 { "counts" } else { "count" };
        let called = listed(plants.iter().map(|(part, _)| &part.label.value));
        let title = format!("the steps {does} and no line says what is strained out: {called} {counts} as bottled");
        Some(
            Diagnostic::warning(Code::NotStated, title)
                .at(first.amount.span, "is it strained out?")
                .help(format!("write {}; or strained = false where it stays in", strained(first))),
        )
    }

    /// The steps strain, and put in behind it what the lines strain with the rest.
    fn behind(&self, made: &SolvedStage) -> Option<Diagnostic> {
        let course = &made.course;
        let kept = course.kept.total_grams();
        let share = kept / (kept + course.left_behind_g + course.out.total_grams());
        let out = self.stage.parts.iter().find(|part| part.is_strained()).filter(|_| share >= MATTERS)?;
        let late: Vec<&Part> = self.late().into_iter().filter_map(|at| self.stage.parts.get(at)).collect();
        let first = late.first()?;
        let go = if late.len() == 1 { "goes" } else { "go" };
        let called = listed(late.iter().map(|part| &part.label.value));
        let share = 100.0 * share;
        let title = match made.in_order {
            true => format!(
                "by the steps {called} {go} in after the straining, and the sheet counts it so; its ± covers the other order \
                 too, with {share:.0} % of it left in the strainer"
            ),
            false => format!(
                "by the steps {called} {go} in after the straining; the sheet counts {share:.0} % of it as left in the strainer"
            ),
        };
        Some(Diagnostic::warning(Code::NotStated, title).at(first.amount.span, "the strainer never sees it").help(format!(
            "give what is strained a stage of its own: [[stage]] name = \"strained\", under [stage.parts] {} and what it \
             stands in, and in [parts] strained = \"all\"",
            strained(out)
        )))
    }

    /// The places of the parts that the steps put in behind the straining, where the sheet strains them with the rest.
    fn late(&self) -> Vec<usize> {
        if let Some(known) = &self.stage.behind {
            return known.clone();
        }
        let pieces = self.pieces();
        let Some(straining) = self.straining(&pieces) else { return Vec::new() };
        // "strain with the hot water": that goes through the strainer
        let goes_on = pieces.get(straining).is_some_and(|piece| !piece.is_last);
        let is_rinsed = pieces
            .get(straining + 1)
            .filter(|next| goes_on && !WordList::Mixed.within(next.text))
            .is_some_and(|next| next.text.split(' ').next().is_some_and(|first| WordList::RinsedWith.has(first)));
        let (before, after) = pieces.split_at(straining + if is_rinsed { 2 } else { 1 });
        let apart = set_apart(self.stage, before.get(..straining).unwrap_or_default(), after, self.names);
        let unnamed = syrup_behind(self.stage, before, after, self.names);
        let before = told(self.stage, before, self.names).into_iter().zip(&apart).map(|(told, apart)| told && !apart);
        // "strain; the sugar is already in", "taste, more sugar if needed"
        let puts = |piece: &&Piece<'_>| !puts_nothing_in(piece.text) && !WordList::AsLiked.is_said_in(piece.text);
        let after: Vec<&Piece<'_>> = after.iter().filter(puts).collect();
        let after = told_of(self.stage, &after, self.names).into_iter().zip(&apart).map(|(told, apart)| told || *apart);
        let after = after.zip(unnamed).map(|(told, unnamed)| told || unnamed);
        let when = before.zip(after);
        let is_late = |(part, (before, after)): (&Part, (bool, bool))| after && !before && !part.is_strained();
        let parts = self.stage.parts.iter().zip(when).enumerate();
        parts.filter(|(_, part)| is_late(*part)).map(|(at, _)| at).collect()
    }

    /// Which piece strains out what is strained: the first from where it is named last, or the last in front of that; the last one, where
    /// none of it is named. Where nothing strains, what takes the plants out does.
    fn straining(&self, pieces: &[Piece<'_>]) -> Option<usize> {
        self.strained_by(pieces).or_else(|| takes_out(self.stage, pieces, self.names))
    }

    fn strained_by(&self, pieces: &[Piece<'_>]) -> Option<usize> {
        let names_strained = |piece: &Piece<'_>| {
            let told = told(self.stage, std::slice::from_ref(piece), self.names);
            self.stage
                .parts
                .iter()
                .zip(told)
                .any(|(part, told)| told && part.is_strained() && !self.is_what_it_gave(part, piece))
        };
        let does = |piece: &Piece<'_>| strains(piece.text) && !is_behind_straining(piece.text);
        let last = || pieces.iter().rposition(does);
        let Some(from) = pieces.iter().rposition(names_strained) else { return last() };
        let behind = pieces.iter().enumerate().skip(from).find(|(_, piece)| does(piece)).map(|(at, _)| at);
        // "strain, discard the almonds, stir in the sugar"
        behind.or_else(last)
    }

    /// "The almond milk", "lait d'amandes", "the damson gin": by its name alone what it gave, and not it again.
    fn is_what_it_gave(&self, part: &Part, piece: &Piece<'_>) -> bool {
        let said = words(piece.text);
        let own: Vec<String> = words(&part.of.value).into_iter().chain(words(&part.label.value)).collect();
        let stands_in = |word: &String| {
            let mut others = self.stage.parts.iter().filter(|other| !other.is_strained());
            others.any(|other| words(&other.of.value).last() == Some(word))
        };
        let is_liquid = |word: &String| WordList::Gave.has_folded(word) || stands_in(word);
        let is_joint = |word: &&String| WordList::Of.has_folded(word) || WordList::Article.has_folded(word);
        let gave = |at: usize| {
            let before = said.get(..at).unwrap_or_default();
            said.get(at + 1).is_some_and(is_liquid)
                || before.last().is_some_and(|joint| is_joint(&joint))
                    && before
                        .iter()
                        .rev()
                        .find(|word| !is_joint(word))
                        .is_some_and(|word| WordList::Gave.has_folded(word))
        };
        let mut named = said.iter().enumerate().filter(|(_, word)| own.contains(word) && tells_apart(word)).peekable();
        named.peek().is_some() && named.all(|(at, _)| gave(at))
    }
}

/// Its line as one that is strained.
fn strained(part: &Part) -> String {
    format!("{:?} = {{ amount = {:?}, strained = true }}", part.label.value, part.written.text)
}
