//! What is counted or dosed by hand, and how that reads: "11 cloves", "juice of 2.7 limes", "20 dashes".

use crate::larder::Form;
use crate::spelling::plural;
use crate::units::display::{grouped, short};
use crate::units::jigger::is_jigger;
use crate::units::{Counted, Literal, Measure, Reading, in_millilitres, is_about};
use crate::vocabulary::{Portion, Word};

use super::SolvedPart;

/// A cup or spoon of something piled: 5 to 15 % by packing and crystal size (the household weights of
/// USDA SR26 and their spread; the middle of it is taken).
const CUP: f64 = 0.10;
/// A liquid measured in a jug or a bottle cap (common practice, no source).
pub(crate) const JUG: f64 = 0.02;
/// The weight of a piece from one of a box to the next, where pieces are counted (common practice, no source); that of
/// several, picked as they come, differs by this over the root of their number.
const PIECE: f64 = 0.20;
/// "About 500 g" of a card, as a share (common practice, no source).
const ABOUT: f64 = 0.10;
/// What comes in one box is alike: of the range in which a larder says that one piece lies this share is common to all
/// of them, however many are counted (ours).
const ALIKE: f64 = 0.5;

/// Whether the maker counts it or doses it by a small measure: then no scale has to weigh it.
pub(super) fn is_by_hand(part: &SolvedPart) -> bool {
    match &part.written {
        // Ice melts into it: no scale weighs that in.
        _ if part.melts.is_some() => true,
        Some(Reading { literal: Literal::Pieces(_), .. }) => part.found.piece.is_some(),
        Some(Reading { literal: Literal::Volume(_), measure: Some(measure), .. }) => measure.spread().is_some(),
        _ => false,
    }
}

/// Whether its card doses it by weight or leaves the amount open: only then a stock solution may stand in for it.
pub(super) fn is_dosed_by_weight(part: &SolvedPart) -> bool {
    let literal = part.written.as_ref().map(|written| written.literal);
    !matches!(
        literal,
        Some(
            Literal::Pieces(_)
                | Literal::Volume(_)
                | Literal::VolumeShare(_)
                | Literal::Bottles(..)
                | Literal::Parts(..)
        )
    )
}

/// A count this near to that of the card, as a share, is that of the card (ours: what a scale rounds away).
const SAME: f64 = 0.03;

/// How much of it that is, in what its card counts or doses it by; `None` where it is weighed or poured.
pub(crate) fn count(part: &SolvedPart) -> Option<f64> {
    let written = part.written.as_ref().filter(|_| is_by_hand(part))?;
    let (card, count) = match (written.literal, written.measure) {
        (Literal::Pieces(pieces), _) => (pieces, part.mass_g / part.found.piece.as_ref()?.each_g),
        (Literal::Volume(volume), Some(measure)) => {
            (in_millilitres(volume) / measure.factor, part.mass_g / part.found.as_measured(written)? / measure.factor)
        }
        _ => return None,
    };
    // Rounded to a scale, four spoons of tea would be 3.9: in a batch of the card's size it is what the card says.
    Some(if (count / card - 1.0).abs() < SAME { card } else { count })
}

/// The same in words, with the name of the line where that does not say it already.
pub(crate) fn words(part: &SolvedPart) -> Option<String> {
    let count = count(part)?;
    let written = part.written.as_ref()?;
    let number = number(count);
    let noun = |one: &str, several: &str| if number == "1" { one.to_owned() } else { several.to_owned() };
    let name = &part.label;
    match (&written.counted, written.measure) {
        (Some(counted), _) => {
            let whole = counted.words.join(" ");
            let names_it = counted.taken.is_none() && crate::spelling::fold(name) == crate::spelling::fold(&whole);
            let is_several = matches!(written.literal, Literal::Pieces(pieces) if pieces > 1.0);
            // as it is written: no rule makes several of every word of five languages
            let said: Vec<&str> = written.text.split_whitespace().map(bare).collect();
            let is_name = |said: &&[&str]| crate::spelling::fold(&said.join(" ")) == crate::spelling::fold(name);
            let said = said.windows(name.split_whitespace().count().max(1)).find(is_name);
            let said = said.map_or_else(|| name.clone(), |said| said.join(" "));
            Some(match (names_it, is_several == (number != "1")) {
                (true, true) => format!("{number} {said}"),
                (true, false) => several(&number, &whole),
                (false, is_alike) => {
                    let typed = is_alike.then_some(written.text.as_str());
                    format!("{name}, {}", counted_words(&number, counted, name, typed))
                }
            })
        }
        (None, Some(measure)) => Some(format!("{name}, {number} {}", noun(&measure.name, &measure.plural))),
        (None, None) => Some(format!("{name}, {number} {}", noun("piece", "pieces"))),
    }
}

/// The same of what is put into a glass; what a jigger measures is poured.
pub(crate) fn poured_by_hand(part: &SolvedPart) -> Option<String> {
    let measure = part.written.as_ref().and_then(|written| written.measure);
    if measure.is_some_and(is_jigger) { None } else { words(part) }
}

/// `11 cloves`, `2 sticks` of cinnamon, `1 bunch` of mint, `juice of 2 limes`.
///
/// `typed` is what the card says, where as many are counted there as here, one or several.
fn counted_words(number: &str, counted: &Counted, name: &str, typed: Option<&str>) -> String {
    let of_name = crate::spelling::words(name);
    // What the name of the line says is not said again, unless it is all there is to count.
    let new: Vec<&str> = counted.words.iter().filter(|word| !of_name.contains(word)).map(String::as_str).collect();
    let portion = counted.words.iter().find(|word| Portion::parse(word).is_some()).map(String::as_str);
    let said = match (new.as_slice(), portion) {
        _ if counted.taken.is_some() => counted.words.join(" "),
        ([], Some(portion)) if of_name.len() > 1 => portion.to_owned(),
        ([], _) => counted.words.join(" "),
        (new, _) => new.join(" "),
    };
    let of = counted.taken.map_or_else(String::new, |taken| format!("{taken} of "));
    let as_typed = typed.and_then(|typed| as_typed(&said, typed));
    let said = as_typed.map_or_else(|| several(number, &said), |typed| format!("{number} {typed}"));
    format!("{of}{said}").trim().to_owned()
}

/// "lemons" of "3 lemons, sliced".
fn bare(token: &str) -> &str {
    token.trim_matches(|c: char| !c.is_alphanumeric())
}

/// Folded words as the card has them: no rule makes several of every word of five languages.
fn as_typed(said: &str, typed: &str) -> Option<String> {
    let tokens = || typed.split_whitespace().map(bare);
    let of = |word: &str| tokens().find(|token| crate::spelling::words(token).concat() == word);
    let found: Option<Vec<&str>> = said.split_whitespace().map(of).collect();
    found.filter(|found| !found.is_empty()).map(|found| found.join(" "))
}

/// `11 cloves`, `1 cinnamon stick`, `3 clous de girofle`.
fn several(number: &str, said: &str) -> String {
    let of = [" of ", " de ", " di "].iter().find_map(|of| said.find(of)).unwrap_or(said.len());
    let (thing, of) = said.split_at(of);
    match thing.rsplit_once(' ') {
        _ if number == "1" || thing.is_empty() => format!("{number} {said}"),
        Some((first, last)) => format!("{number} {first} {}{of}", plural(last)),
        None => format!("{number} {}{of}", plural(thing)),
    }
}

/// A count as it is counted: whole from ten up, below that to a tenth.
fn number(count: f64) -> String {
    match count {
        n if n >= 9.95 => grouped(n, 0),
        n if n >= 0.95 => short((n * 10.0).round() / 10.0),
        n => short(n),
    }
}

/// How far a line may be off where its card counts it or measures it by volume, as a share; `None` where it is weighed.
pub(crate) fn share_off(part: &SolvedPart) -> Option<f64> {
    if let Some(share) = part.melts {
        return Some(share);
    }
    let written = part.written.as_ref()?;
    let about = is_about(&written.text).then_some(ABOUT);
    let by_hand = share_by_hand(part, written);
    by_hand.map(|share| share.hypot(about.unwrap_or_default())).or(about)
}

fn share_by_hand(part: &SolvedPart, written: &Reading) -> Option<f64> {
    match written.literal {
        // Less than one piece is as much in uncertainty as one.
        Literal::Pieces(count) => {
            let by_number = 1.0 / count.max(1.0).sqrt();
            let of_larder = part.found.piece.as_ref().and_then(|one| Some(one.half_width_g? / one.each_g));
            Some(of_larder.map_or(PIECE * by_number, |share| share * by_number.max(ALIKE)))
        }
        Literal::Volume(_) | Literal::VolumeShare(_) | Literal::Bottles(..)
            if part.found.by_weight(written).is_none() =>
        {
            let of_measure = written.measure.and_then(Measure::spread);
            Some(match part.found.form {
                Form::Solid => {
                    let heaped = part.found.heaped(written).and_then(|heaped| heaped.spread).unwrap_or(CUP);
                    heaped.hypot(of_measure.unwrap_or_default())
                }
                Form::Liquid => of_measure.unwrap_or(JUG),
            })
        }
        _ => None,
    }
}
