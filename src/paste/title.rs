//! What a title says besides the name: "Grenadine (makes 75cl)", "Lime cordial – 1 litre", "Milk punch, 2 L ish".

use crate::units::Literal;

use super::names::Names;
use super::words::WordList;

/// The name, and the size in the words of the title.
pub(super) struct SizedTitle<'a> {
    pub name: &'a str,
    pub makes: &'a str,
    /// Whether the size stands apart from the name.
    pub is_apart: bool,
}

/// A title that says how much it makes; `None` for one that is all name.
pub(super) fn sized<'a>(text: &'a str, names: Names<'_>) -> Option<SizedTitle<'a>> {
    let text = text.trim_end_matches(':').trim();
    let apart = |name: &'a str, makes: &'a str| {
        let makes = makes.trim();
        let is = is_size(makes, names) && !name.trim().is_empty();
        is.then(|| SizedTitle { name: name.trim(), makes: without_key(makes), is_apart: true })
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

/// "makes 75cl", "yield: 1 L", "about 2 litres", "2L ish".
fn is_size(text: &str, names: Names<'_>) -> bool {
    let bare = without_key(text);
    let bare = bare.strip_suffix("ish").map_or(bare, |bare| bare.trim_end_matches([' ', '-']));
    let words: Vec<&str> = bare.split(' ').filter(|word| !WordList::About.has(word)).collect();
    let size = words.join(" ");
    size.starts_with(|c: char| c.is_numeric())
        && matches!(names.reads(&size), Ok(Literal::Volume(_) | Literal::Mass(_) | Literal::Bottles(..)))
}

fn without_key(text: &str) -> &str {
    let lower = text.to_lowercase();
    let key = ["makes ", "makes: ", "yields ", "yield ", "yield: ", "for ", "batch of "];
    let key = key.iter().find(|key| lower.starts_with(**key));
    key.and_then(|key| text.get(key.len()..)).unwrap_or(text).trim()
}
