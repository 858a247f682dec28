//! What is said beside a name, in brackets or behind a comma: what a card can say, the rest of a name that is known, a remark, or a
//! question.

use super::amount_in_step::told_at;
use super::draft::{DraftPart, Remark};
use super::names::Names;
use super::share::known;
use super::speaks::names_it;
use super::strains::{is_behind_straining, strains};
use super::strength::of_strength;
use super::taken_out::pulls;
use super::words::WordList;
use crate::units::told::told_first;
use crate::units::{Literal, literal};

/// What is said of a thing besides its name: a remark, or a question where that may be another thing.
pub(super) fn more(of: &str, said: &str, names: Names<'_>) -> Remark {
    if is_times(said) {
        return Remark::Question(format!("\"{said}\": is the amount that of one, or of all? write what goes in"));
    }
    // "plus extra for garnish" is not in it
    if WordList::Extra.at_the_start(said) && !said.contains(|c: char| c.is_numeric()) {
        return Remark::Said(said.to_owned());
    }
    // "(plus 200 ml later)"
    let adds = said.split_whitespace().any(|word| WordList::More.has(word));
    if adds && said.contains(|c: char| c.is_ascii_digit()) {
        return Remark::Question(format!("\"{said}\": does that go in too? then it is a line of its own"));
    }
    if matches!(literal::parse(said), Ok(Literal::Percent(_) | Literal::Abv(_) | Literal::Proof(_))) {
        let asks = "is that its strength, or how much is dissolved in it?";
        return Remark::Question(format!("\"{said}\": {asks} then call the line \"{of} {said}\""));
    }
    // "250 ml gin, and 20 ml rum"
    let words: Vec<&str> = said.split_whitespace().collect();
    let is_size = |literal| matches!(literal, Literal::Mass(_) | Literal::Volume(_)).then_some(());
    let of_known = (0..words.len()).filter_map(|at| words.get(at..)).any(|words| {
        let size = told_first(words, is_size).map(|(size, ())| size.split(' ').count());
        size.and_then(|n| words.get(n..))
            .is_some_and(|behind| known(behind, names).is_some_and(|name| !names.same(&name, of)))
    });
    // "20 cloves", and not "8 limes" of lime juice
    let counts = || {
        let told = (0..words.len()).filter_map(|at| told_at(&[], words.get(at..)?, false, names));
        told.map(|(told, _)| told.name).any(|name| names.knows(&name) && !names_it(of, &name) && !names_it(&name, of))
    };
    if of_known || !WordList::Beside.at_the_start(said) && counts() {
        return Remark::Question(format!("\"{said}\": does that go in too? then it is a line of its own"));
    }
    // "(from the garden)", "(8 limes)"
    let first = said.split(' ').next().unwrap_or_default();
    let is_beside = WordList::Beside.has(first) || matches!(literal::parse(first), Ok(Literal::Number(_)));
    match !is_beside && names.may_change(of, said) {
        true => Remark::Question(format!(
            "\"{said}\": does that make it another thing than {of}? if not, delete this question; if so, write what it is: of = \"{said} {of}\""
        )),
        false => Remark::Said(said.to_owned()),
    }
}

/// "x2", "2 x", "×2".
fn is_times(said: &str) -> bool {
    const TIMES: [char; 3] = ['x', 'X', '×'];
    let number = said.strip_prefix(TIMES).or_else(|| said.strip_suffix(TIMES)).map(str::trim);
    number.is_some_and(|number| !number.is_empty() && number.chars().all(|c| c.is_ascii_digit()))
}

/// What a text of a card says of it.
const IS_STRAINED: [&str; 2] = ["strained out", "strained"];

/// "strained out", "take out", "à retirer": of what a strainer holds back.
pub(super) fn says_strained_out(said: &str, part: &DraftPart, names: Names<'_>) -> bool {
    IS_STRAINED.contains(&said) || names.is_strained_out(part.of()) && (strains(said) || pulls(said))
}

/// What stands in brackets: what a card can say, the rest of a name that is known, or a remark.
pub(super) fn bracket(inside: &str, part: &mut DraftPart, names: Names<'_>) {
    if let Some(food) = inside.strip_prefix("food: ") {
        part.food = Some(food.to_owned());
        return;
    }
    let said: Vec<&str> = inside.split("; ").collect();
    for said in said {
        if is_behind_straining(said) {
            part.is_behind = true;
            part.remarks.push(Remark::Said(said.to_owned()));
        } else if says_strained_out(said, part, names) {
            part.strained = Some(true);
            part.remarks.extend((!IS_STRAINED.contains(&said)).then(|| Remark::Said(said.to_owned())));
        } else if said == "not strained out" {
            part.strained = Some(false);
        } else if let Some(holds) = said.strip_prefix("holds ").filter(|holds| holds.parse::<f64>().is_ok()) {
            part.holds = Some(holds.to_owned());
        } else if let Some(of) = said.strip_prefix("of \"").and_then(|of| of.strip_suffix('"')) {
            part.of = Some(of.to_owned());
        } else if let Some(named) = of_strength(part.of(), said, names) {
            part.remarks.push(Remark::Said(said.to_owned()));
            part.label = named;
        } else if said.split(' ').any(is_ratio) {
            match names.plain(&format!("{} ({said})", part.of())) {
                Some(known) => {
                    part.remarks.push(Remark::Assumed(format!("{} ({said}) is {known}", part.of())));
                    part.label = known;
                }
                None => {
                    let asks = format!("\"{said}\": of what to what? what is mixed is a stage of its own");
                    part.remarks.push(Remark::Question(asks));
                }
            }
        } else if let Some(known) =
            names.plain(&format!("{} ({said})", part.of())).filter(|_| names.may_change(part.of(), said))
        {
            part.remarks.push(Remark::Assumed(format!("{} ({said}) is {known}", part.of())));
            part.label = known;
        } else {
            part.remarks.push(more(part.of(), said, names));
        }
    }
}

/// The line without its brackets, and what stands in them; brackets between quotes belong to the name.
pub(super) fn without_brackets(line: &str) -> (String, Vec<String>) {
    let (mut text, mut inside, mut found) = (String::new(), None::<String>, Vec::new());
    let mut in_quotes = false;
    let mut depth = 0_usize;
    for c in line.chars() {
        in_quotes ^= c == '"' && inside.is_none();
        match (c, &mut inside) {
            ('(', None) if !in_quotes => inside = Some(String::new()),
            (')', Some(_)) if depth == 0 => found.extend(inside.take()),
            (c, Some(said)) => {
                depth = match c {
                    '(' => depth + 1,
                    ')' => depth.saturating_sub(1),
                    _ => depth,
                };
                said.push(c);
            }
            (c, None) => text.push(c),
        }
    }
    if let Some(open) = inside {
        text = format!("{text}({open}");
    }
    (text.split_whitespace().collect::<Vec<_>>().join(" ").replace(" ,", ","), found)
}

/// "2:1".
pub(super) fn is_ratio(word: &str) -> bool {
    let is_share = |share: &str| share.parse::<f64>().is_ok();
    word.split_once(':').is_some_and(|(of, to)| is_share(of) && is_share(to))
}
