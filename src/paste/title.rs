//! What a title says besides the name: "Grenadine (makes 75cl)", "Lime cordial – 1 litre", "Milk punch, 2 L ish".

use crate::units::{Customs, Literal, is_container, literal, measure, without_about};
use crate::vocabulary::{Portion, Word};

use super::draft::DraftLine;
use super::names::Names;
use super::part::{PartSaid, part};
use super::words::WordList;

/// A name in front of sentences has so many words at the most (ours).
const MOST_WORDS: usize = 6;
/// Measures that names of drinks begin with.
const SMALL_MEASURES: [Portion; 4] = [Portion::Pinch, Portion::Dash, Portion::Drop, Portion::Jigger];

/// The name, and the size in the words of the title.
pub(super) struct SizedTitle<'a> {
    pub name: &'a str,
    pub makes: &'a str,
    /// Whether the size stands apart from the name.
    pub is_apart: bool,
    /// Whether it says that so much is made: "(for 1 bottle)".
    pub says_so: bool,
}

/// A title that says how much it makes; `None` for one that is all name.
pub(super) fn sized<'a>(text: &'a str, names: Names<'_>) -> Option<SizedTitle<'a>> {
    let text = text.trim_end_matches(':').trim();
    let apart = |name: &'a str, makes: &'a str| {
        let makes = makes.trim();
        let is = is_size(makes, names) && !name.trim().is_empty();
        let bare = without_key(makes);
        is.then(|| SizedTitle { name: name.trim(), makes: bare, is_apart: true, says_so: bare.len() < makes.len() })
    };
    if let Some((name, inside)) = text.strip_suffix([')', ']']).and_then(|text| text.rsplit_once(['(', '['])) {
        return apart(name, inside);
    }
    let marks = [" - ", " – ", " — ", ", ", ": ", " | ", " / "];
    if let Some(found) =
        marks.iter().find_map(|mark| text.rsplit_once(mark).and_then(|(name, makes)| apart(name, makes)))
    {
        return Some(found);
    }
    let ends = text.char_indices().filter(|(_, c)| *c == ' ').map(|(at, _)| at);
    let mut ends = ends.filter_map(|at| text.split_at_checked(at));
    ends.find_map(|(name, makes)| apart(name, makes)).map(|found| SizedTitle { is_apart: false, ..found })
}

/// The name in front of the sentences that tell it all: "Ginger syrup: take 500 g sugar, …", "Sciroppo di rosmarino. Bollire …".
pub(super) fn before_its_steps(text: &str) -> Option<(&str, &str)> {
    let (name, steps) =
        [": ", ". "].iter().filter_map(|mark| text.split_once(mark)).min_by_key(|(name, _)| name.len())?;
    let first = steps.split(' ').next().unwrap_or_default();
    let is_name = name.split(' ').count() <= MOST_WORDS && !name.contains(|c: char| c.is_numeric());
    let is_told = WordList::Step.has(first) || WordList::Gathers.has(first);
    let own = name.split(' ').next().unwrap_or_default();
    let is_step = WordList::Step.has(own) || WordList::Gathers.has(own) || WordList::Method.has_singular(name);
    (is_name && is_told && !is_step).then_some((name, steps))
}

/// "Dash bitters", "Splash Mountain": a measure without a number in front, and nowhere a number but in brackets.
pub(super) fn begins_with_a_unit(text: &str) -> bool {
    let (first, rest) = text.split_once(' ').unwrap_or((text, ""));
    let is_unit =
        measure(first).is_some() || Portion::parse(first).is_some_and(|portion| SMALL_MEASURES.contains(&portion));
    let outside = rest.split('(').next().unwrap_or_default();
    is_unit && !is_container(first) && !outside.contains(|c: char| c.is_numeric())
}

/// What is to be asked of such a title that names what is known.
pub(super) fn may_be_a_part(text: &str, names: Names<'_>) -> Option<DraftLine> {
    let is_known = matches!(part(text, names), PartSaid::Part(part) if names.knows(part.of()));
    let asks = "is that what the recipe is called (then delete this line), or its first part?";
    (begins_with_a_unit(text) && is_known).then(|| DraftLine::question(text, asks))
}

/// "makes 75cl", "yield: 1 L", "about 2 litres", "2L ish".
fn is_size(text: &str, names: Names<'_>) -> bool {
    let bare = without_about(without_key(text));
    let bare = bare.strip_suffix("ish").map_or(bare, |bare| bare.trim_end_matches([' ', '-']));
    let words: Vec<&str> = bare.split(' ').filter(|word| !WordList::About.has(word)).collect();
    let size = words.join(" ");
    // a yield of bottles needs their size
    let customs = Customs { bottle: names.house.customs().bottle, ..names.customs() };
    let reads = || literal::read_by(&size, &customs).map(|read| read.literal);
    let is_one = || words.first().is_some_and(|one| WordList::One.has(one) || one.eq_ignore_ascii_case("a"));
    (size.starts_with(|c: char| c.is_numeric()) || words.len() == 2 && is_one())
        && matches!(reads(), Ok(Literal::Volume(_) | Literal::Mass(_) | Literal::Bottles(..)))
}

fn without_key(text: &str) -> &str {
    let (key, size) = text.split_once(' ').unwrap_or((text, ""));
    let key = key.trim_end_matches(':');
    let is_key = WordList::Makes.has(key) || WordList::MakesFor.has(key) || key.eq_ignore_ascii_case("for");
    match text.strip_prefix("batch of ") {
        Some(size) => size.trim(),
        None if is_key => size.trim(),
        None => text.trim(),
    }
}
