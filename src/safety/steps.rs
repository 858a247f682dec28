//! What the words of a method tell: processes, what a drink meets, and what goes in that no part names. What a step
//! forbids ("keep away from dry ice", "never carbonate") it tells nothing of.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::spelling::{Claim, Memo, NameWord, name_words, pasteurised, singular, spelled_out, words};
use crate::units::spans::{SpanEnd, time};
use crate::units::told::clauses;
use crate::vocabulary::table::{self, LongTable};
use crate::vocabulary::{Allergen, Process, Tag};

use super::cleaning::{self, is_cleaned};
use super::denied::{affirmed, is_affirmed, not_forbidden};
use super::egg_parts;
use super::names::{self, Found};
use super::step_words::StepWord;
use super::stones;
use super::vessels::{self, Meets};

#[derive(Deserialize)]
struct MethodWord {
    process: Option<Process>,
    tag: Option<Tag>,
    sure: Option<Sure>,
}

#[derive(Clone, Copy, Deserialize)]
enum Sure {
    #[serde(rename = "yes")]
    Yes,
    /// Only a question, and none where the text tells of heating.
    #[serde(rename = "unless heated")]
    UnlessHeated,
}

static METHOD: LazyLock<LongTable> =
    LazyLock::new(|| LongTable::read("method-words.csv", include_str!("data/method-words.csv")));

/// How many words the row of a line takes that stand at the front of these.
fn length_in(line: &'static str, rest: &[NameWord]) -> Option<usize> {
    /// So many words at the most stand in a gap.
    const GAP: usize = 3;
    let stands = |piece: &[Cow<'static, str>], at: usize| {
        let said = rest.get(at..at + piece.len());
        said.is_some_and(|said| said.iter().zip(piece).all(|(word, wanted)| word.text == *wanted))
    };
    let pieces = table::first_cell(line).split('*').map(|piece| table::words_of(piece.trim()).collect::<Vec<_>>());
    pieces.enumerate().try_fold(0, |end, (place, piece)| {
        let last = if place == 0 { end } else { end + GAP };
        Some((end..=last).find(|at| stands(&piece, *at))? + piece.len())
    })
}

/// What of the table stands in a clause, but for what is only a part of another thing ("yeast extract").
fn method_words(clause: &[NameWord]) -> Vec<MethodWord> {
    let standing = |at: usize| {
        let rest = clause.get(at..).unwrap_or_default();
        let stands = move |line: &'static str| Some((at..at + length_in(line, rest)?, METHOD.read_line(line)));
        rest.first().map(|word| METHOD.beginning_with(&word.text)).into_iter().flatten().filter_map(stands)
    };
    let all: Vec<(Range<usize>, MethodWord)> = (0..clause.len()).flat_map(standing).collect();
    let tells = |row: &MethodWord| row.process.is_some() || row.tag.is_some();
    let others: Vec<Range<usize>> = all.iter().filter(|(_, row)| !tells(row)).map(|(at, _)| at.clone()).collect();
    let is_part = |at: &Range<usize>| others.iter().any(|other| other.start <= at.start && at.end <= other.end);
    all.into_iter().filter(|(at, _)| !is_part(at)).map(|(_, row)| row).collect()
}

/// What one text of a method, or a note, tells.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct StepSays {
    /// What names in it give away: of what may go in.
    pub found: Found,
    /// What is surely done, and what the drink surely meets.
    pub done: BTreeSet<Process>,
    pub meets: BTreeSet<Tag>,
    /// What may be done.
    pub perhaps: BTreeSet<Process>,
    /// An egg comes out of its shell: cracked, parted, counted, or told where it was laid.
    pub egg_in_shell: bool,
    /// Fruit is not stoned, by its word.
    pub stones_stay: bool,
    /// Something is crushed or ground.
    pub crushes: bool,
    /// Ice is taken off what was frozen: it leaves spirit stronger, and makes none of a juice.
    pub freezes_out: bool,
}

/// Reads a text, clause by clause: "freeze in dry, clean trays; add ice" is not of dry ice.
pub(crate) fn read(text: &str) -> StepSays {
    // a step is read again for each card that its card goes into, and for each change that is weighed
    static READ: Memo<StepSays> = Memo::new();
    StepSays::clone(&READ.of(text, read_anew))
}

fn read_anew(text: &str) -> StepSays {
    let mut says = StepSays::default();
    let mut freezes = false;
    let mut is_mouldy = false;
    let mut begun = Vec::new();
    let all = text.split(['.', '!']).flat_map(|sentence| {
        let clauses = sentence.split([',', ';', ':', '(', ')']);
        clauses.map(move |clause| (sentence, clause))
    });
    for (sentence, clause) in all {
        // "No foxglove? Yes, a leaf": what is asked is denied by nobody
        let said = name_words(clause);
        let is_raw_milk = names::calls_milk_raw(&said);
        says.stones_stay |= stones::are_left(&said);
        let words = if clause.contains('?') { affirmed(said) } else { not_forbidden(said) };
        let mut found = names::find_near(&words, 1);
        found.add(names::find_near(&spelled_out(&words), 1));
        // "the leaves of the rhubarb", and never the cream of "crème de cassis"
        let named: Vec<NameWord> = words.iter().filter(|word| !StepWord::Small.has(&word.text)).cloned().collect();
        if named.len() < words.len() {
            found.add(names::find_near(&named, 2));
        }
        // what is forbidden in it is a gap
        if egg_parts::named(clause).is_some_and(|part| words.iter().any(|word| word.text == singular(part))) {
            found.tags.insert(Tag::RawEgg);
            found.allergens.insert(Allergen::Egg);
        }
        if pasteurised(clause) == Some(Claim::Made) {
            found.tags.remove(&Tag::RawEgg);
            found.unsure.remove(&Tag::RawEgg);
        }
        // "non" of "lait non pasteurisé" forbids no milk, and that of "never use raw milk" does
        if is_raw_milk && found.allergens.contains(&Allergen::Milk) {
            found.tags.insert(Tag::RawMilk);
        }
        says.egg_in_shell |= found.tags.contains(&Tag::RawEgg) && egg_parts::is_in_shell(&words);
        if !cleaning::is_left_on(text) && cleaning::leaves_nothing(&words, || not_forbidden(name_words(text))) {
            for tag in [Tag::NotFood, Tag::UnfitVessel] {
                found.tags.remove(&tag);
                found.unsure.remove(&tag);
            }
        }
        says.found.add(found);
        freezes |= words.iter().any(|word| StepWord::Freezing.has(&word.text));
        // what is left when the ice is taken off is stronger than what was frozen
        if freezes && takes_off_ice(&words) {
            says.freezes_out = true;
        }
        let has = |list: StepWord| words.iter().any(|word| list.has(&word.text));
        says.crushes |= has(StepWord::Cracking) || has(StepWord::Grinding);
        says.stones_stay |= stones::are_included(&words);
        if stones::are_cracked(&words) {
            says.found.tags.insert(Tag::StoneFruitKernel);
        }
        // "if mould forms, scrape it off"
        let grew = std::mem::replace(
            &mut is_mouldy,
            has(StepWord::Mould) || has(StepWord::MouldOrForm) && has(StepWord::Grows),
        );
        if (grew || is_mouldy) && has(StepWord::Scraped) {
            says.meets.insert(Tag::Mouldy);
        }
        let is_of_a_fault = has(StepWord::InCase) && told_to_discard(sentence);
        // "throw swollen tins away"
        let is_thrown_away = is_of_a_fault || throws_away(&words);
        for met in vessels::met(&words.iter().map(|word| word.text.as_str()).collect::<Vec<_>>()) {
            match met {
                Meets::Metal(tag) => drop(says.meets.insert(tag)),
                Meets::Done(process) => drop(says.done.insert(process)),
            }
        }
        // "boil the full, closed bottles": a comma parts no two words of one vessel
        let of_vessel: Vec<NameWord> = std::mem::take(&mut begun).into_iter().chain(words.iter().cloned()).collect();
        if bursts(&of_vessel) {
            says.meets.insert(Tag::BurstingGlass);
        }
        if of_vessel.last().is_some_and(|last| StepWord::Shut.has(&last.text) || StepWord::Full.has(&last.text)) {
            begun = of_vessel;
        }
        if cleaning::is_left_dirty(&name_words(clause), || name_words(sentence)) {
            says.meets.insert(Tag::Spoiled);
        }
        for row in method_words(&words) {
            says.meets.extend(row.tag.filter(|tag| !is_thrown_away || !matches!(tag, Tag::Spoiled | Tag::Leftover)));
            if is_of_a_fault {
                continue;
            }
            match row.sure {
                Some(Sure::Yes) => says.done.extend(row.process),
                Some(Sure::UnlessHeated) if is_in_a_pan(text) || is_soon_over(clause) => {}
                Some(Sure::UnlessHeated) | None => says.perhaps.extend(row.process),
            }
        }
    }
    says
}

/// "Bin the swollen tins", never "the husks from the bar bin".
fn throws_away(words: &[NameWord]) -> bool {
    /// So many words at the most stand between a place and what says that something comes from there.
    const REACH: usize = 3;
    let is_place = |at: usize| words[at.saturating_sub(REACH)..at].iter().any(|word| StepWord::OutOf.has(&word.text));
    words.iter().enumerate().any(|(at, word)| StepWord::Discard.has(&word.text) && !is_place(at))
}

fn told_to_discard(text: &str) -> bool {
    words(text).iter().any(|word| StepWord::Discard.has(word))
}

/// "Boil the closed bottle", "freeze the full glass bottle": what has no room in it breaks its glass. An empty one has room.
fn bursts(words: &[NameWord]) -> bool {
    let has = |list: StepWord| words.iter().any(|word| list.has(&word.text));
    if has(StepWord::Empty) && !words.iter().any(|word| StepWord::Full.has(&word.text)) {
        return false;
    }
    (has(StepWord::Heating) || has(StepWord::Freezing)) && has(StepWord::Shut) && has(StepWord::Vessel)
}

/// Whether a text heats, or tells of a pan: what bubbles there boils.
fn is_in_a_pan(text: &str) -> bool {
    heats_all(text) || told_clauses(text).iter().flatten().any(|word| StepWord::Pan.has(word))
}

/// "Let it bubble for 20 minutes" boils: nothing works so fast (ours).
fn is_soon_over(clause: &str) -> bool {
    const FASTEST_S: f64 = 7200.0;
    let words: Vec<&str> = clause.split_whitespace().collect();
    time(&words, SpanEnd::Most).is_some_and(|told| told.seconds <= FASTEST_S)
}

/// "Take off the ice", never "take the ice cube tray out".
fn takes_off_ice(words: &[NameWord]) -> bool {
    const REACH: usize = 4;
    let has = |list: StepWord, at: usize| words.get(at).is_some_and(|word| list.has(&word.text));
    let is_ice = |at: usize| has(StepWord::Ice, at) && !has(StepWord::OfIce, at + 1);
    let near = |at: usize| (at.saturating_sub(REACH)..=at + REACH).any(|at| has(StepWord::TakingOff, at));
    (0..words.len()).any(|at| is_ice(at) && near(at))
}

/// The words of each clause that are not forbidden and not about cleaning.
pub(crate) fn told_clauses(text: &str) -> Vec<Vec<String>> {
    static TOLD: Memo<Vec<Vec<String>>> = Memo::new();
    Vec::clone(&TOLD.of(text, |text| told_where(text, |_| true)))
}

/// Those of the clauses of which the words as they are written pass.
fn told_where(text: &str, passes: impl Fn(&[NameWord]) -> bool) -> Vec<Vec<String>> {
    let written = clauses(text).into_iter().map(|clause| name_words(clause.text)).filter(|words| passes(words));
    let texts = |words: Vec<NameWord>| words.into_iter().map(|word| word.text).collect::<Vec<_>>();
    let all = written.map(|words| texts(not_forbidden(words)));
    all.filter(|words| !is_cleaned(words)).collect()
}

/// The same for what is heated: where the verb stands last ("nicht über Feuer erhitzen"), no reach of a few words finds it.
fn heated_clauses(text: &str) -> Vec<Vec<String>> {
    static HEATED: Memo<Vec<Vec<String>>> = Memo::new();
    let is_reached = |words: &[NameWord]| !words.iter().any(|word| StepWord::VerbLast.has(&word.text));
    Vec::clone(&HEATED.of(text, |text| told_where(text, is_reached)))
}

/// Whether a text tells that a thing of this name is heated: "simmer the vodka with the spices", never "boil the water and
/// add the vodka".
pub(crate) fn heats(text: &str, name: &[String]) -> bool {
    heated_clauses(text).iter().any(|words| {
        let mut verbs = (0..words.len()).filter(|&at| is_heating(words, at));
        verbs.any(|at| things_of(words, at).any(|thing| name.contains(thing)))
            || boil_of(words).is_some_and(|things| things.iter().any(|thing| name.contains(thing)))
    })
}

/// What stands in front of a boil that is a noun: "porter le rhum à ébullition".
fn boil_of(words: &[String]) -> Option<&[String]> {
    let at = words.iter().position(|word| StepWord::ToTheBoil.has(word))?;
    words.get(..at)
}

/// The words in which the thing of a verb may be named.
fn things_of(words: &[String], verb: usize) -> impl Iterator<Item = &String> {
    /// So many words at the most stand between the verb and its thing.
    const REACH: usize = 5;
    // "melt the fat over low heat" names it in front
    let (before, behind) = words.split_at((verb + 1).min(words.len()));
    let (noun, verb) = if is_heat_itself(words, verb) { (before, &[][..]) } else { (&[][..], behind) };
    noun.iter().chain(verb.iter().take(REACH).take_while(|word| !StepWord::Next.has(word)))
}

/// "Over a low heat": no verb.
fn is_heat_itself(words: &[String], at: usize) -> bool {
    let before = words.get(..at).unwrap_or_default().iter().rev().find(|word| !StepWord::Small.has(word));
    words.get(at).is_some_and(|word| StepWord::Heat.has(word))
        && before.is_some_and(|word| StepWord::OverHeat.has(word))
}

/// Whether a text tells of heating, whatever is heated.
pub(crate) fn heats_all(text: &str) -> bool {
    heats_but(text, &[])
}

/// Whether a text tells of heating something that has none of these names, and no vessel that is warmed to be filled.
pub(crate) fn heats_but(text: &str, others: &[String]) -> bool {
    heated_clauses(text).iter().any(|words| {
        let is_filled = !others.is_empty() && words.iter().any(|word| StepWord::Filling.has(word));
        let heats = |&at: &usize| is_heating(words, at) && !things_of(words, at).any(|thing| others.contains(thing));
        !is_filled && (0..words.len()).any(|at| heats(&at))
    })
}

/// Whether all that a text heats without naming it goes on with one of these that its clause names before, and never with one of `spirits`:
/// "melt the butter and cook until brown".
pub(crate) fn heats_on(text: &str, these: &[String], spirits: &[String]) -> bool {
    heated_clauses(text).iter().all(|words| {
        let goes_on = |at: usize| {
            let before = words.get(..at).unwrap_or_default();
            before.last().is_some_and(|word| StepWord::Join.has(word))
                && before.iter().any(|word| these.contains(word))
                && !before.iter().any(|word| StepWord::Next.has(word))
                && !words.iter().any(|word| spirits.contains(word))
        };
        let is_named = |at: usize| things_of(words, at).any(|thing| these.contains(thing));
        (0..words.len()).filter(|&at| is_heating(words, at)).all(|at| is_named(at) || goes_on(at))
    })
}

/// Whether a text tells of heating more than the vessels that it is filled into.
pub(crate) fn heats_more_than_vessels(text: &str) -> bool {
    // "bring to the boil and bottle": what stands beyond the "and" is another thing
    let clauses = heated_clauses(text);
    let mut parts = clauses.iter().flat_map(|words| words.split(|word| StepWord::Join.has(word)));
    let has_vessel = |part: &[String]| part.iter().any(|word| StepWord::Vessel.has(word));
    parts.any(|part| !has_vessel(part) && (0..part.len()).any(|at| is_heating(part, at)))
}

/// Whether a text says that nothing is heated: "without heat", never "do not heat above 85 °C".
pub(crate) fn denies_heat(text: &str) -> bool {
    /// So many words at the most stand between the two.
    const REACH: usize = 3;
    let forbids = |word: &NameWord| StepWord::Not.has(&word.text) || StepWord::Forbid.has(&word.text);
    clauses(text).into_iter().filter(|clause| !clause.text.contains(|c: char| c.is_ascii_digit())).any(|clause| {
        let words = name_words(clause.text);
        let behind = |at: usize| words.iter().skip(at + 1).take(REACH).any(|word| StepWord::Heat.has(&word.text));
        let forbidden = words.iter().enumerate().any(|(at, word)| forbids(word) && behind(at));
        forbidden && !is_affirmed(&words) || words.iter().any(|word| StepWord::Unheated.has(&word.text))
    })
}

/// Whether a name says that it was distilled, and is not of water.
pub(crate) fn is_called_distilled(name: &str) -> bool {
    let words = name_words(name);
    let has = |list: StepWord| words.iter().any(|word| list.has(&word.text));
    has(StepWord::Distilled) && !has(StepWord::Water) || is_cut(name)
}

/// "Heads", "low wines", "tête": a name that is nothing but that of a part of a distillation.
pub(crate) fn is_cut(name: &str) -> bool {
    StepWord::Cut.has(&words(name).join(" "))
}

/// Whether a name says what a thing is, and not only how a bar likes to call it: "oleander liqueur", "Eisenhutbitter".
pub(crate) fn names_a_product(name: &str) -> bool {
    words(name)
        .iter()
        .any(|word| (0..word.len()).any(|at| word.get(at..).is_some_and(|tail| StepWord::Product.has(tail))))
}

/// Whether a text calls something raw.
pub(crate) fn says_raw(text: &str) -> bool {
    name_words(text).iter().any(|word| StepWord::Raw.has(&word.text))
}

/// Whether a text tells of something that drives water off.
pub(crate) fn drives_off(text: &str) -> bool {
    heats_all(text) || told_clauses(text).iter().flatten().any(|word| StepWord::Drying.has(word))
}

/// Whether the word of a clause at this place is a verb of heating: "warm the rum", never "a warm place".
fn is_heating(words: &[String], at: usize) -> bool {
    let word = words.get(at).map(String::as_str).unwrap_or_default();
    let begins = match at.checked_sub(1).and_then(|before| words.get(before)) {
        None => true,
        Some(before) => StepWord::Join.has(before) || StepWord::Next.has(before),
    };
    // "off the heat", "keep off direct heat"
    let mut before = words.get(..at).unwrap_or_default().iter().rev().filter(|word| !StepWord::Determiner.has(word));
    let is_left = StepWord::Heat.has(word) && before.by_ref().take(2).any(|before| StepWord::OffHeat.has(before));
    // "porter le tout à ébullition", never "porter l'eau à ébullition"
    let boils_all = || words.iter().take(at).all(|word| StepWord::BringAll.has(word) || StepWord::Small.has(word));
    StepWord::Heating.has(word) && !is_left
        || StepWord::Warming.has(word) && begins
        || StepWord::ToTheBoil.has(word) && boils_all()
}
