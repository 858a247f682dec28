//! What a step tells of standing warm: "hold at 45 °C for 24 h", "leave on the counter overnight".

use std::collections::HashMap;
use std::ops::Range;
use std::sync::LazyLock;

use crate::spelling::words;
use crate::units::spans::{SpanEnd, time, time_first};
use crate::units::told::{clauses, first_told};
use crate::units::{Literal, degrees_celsius};
use crate::vocabulary::table;
use serde::Deserialize;

use super::step_words::StepWord;

/// A room of which nobody says how warm it is, °C (ours).
pub(crate) const ROOM_C: f64 = 21.0;
const SECONDS_AN_HOUR: f64 = 3600.0;

/// How long, and how warm at the most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Stood {
    /// Hours.
    pub hours: f64,
    /// °C.
    pub t_c: f64,
    /// A step names the place, or its degrees.
    pub is_placed: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum StandsWhere {
    Warm,
    Cold,
    Same,
    Steeps,
    Cools,
    Shelf,
    Room,
    Stores,
    Chills,
    #[serde(rename = "for_a_while")]
    ForAWhile,
    Degrees,
    Nowhere,
}

#[derive(Deserialize)]
struct StandingRow {
    place: StandsWhere,
    words: String,
}

/// The rows of the table by their first words.
static PLACES: LazyLock<HashMap<String, Vec<(StandsWhere, Vec<String>)>>> = LazyLock::new(|| {
    let mut all: HashMap<String, Vec<(StandsWhere, Vec<String>)>> = HashMap::new();
    for row in table::rows::<StandingRow>("standing-words.csv", include_str!("data/standing-words.csv")) {
        let words = words(&row.words);
        all.entry(words.first().cloned().unwrap_or_default()).or_default().push((row.place, words));
    }
    all
});

/// What of the table stands in a text, side by side, and where.
struct PlacesSaid(Vec<(StandsWhere, Range<usize>)>);

impl PlacesSaid {
    fn of(folded: &[String]) -> Self {
        let from = |at: usize| {
            let rest = folded.get(at..).unwrap_or_default();
            let rows = folded.get(at).and_then(|word| PLACES.get(word)).into_iter().flatten();
            let stand = rows.filter(move |(_, row)| rest.starts_with(row));
            stand.map(move |(place, row)| (*place, at..at + row.len()))
        };
        Self((0..folded.len()).flat_map(from).collect())
    }

    fn says(&self, place: StandsWhere) -> bool {
        self.0.iter().any(|(of, _)| *of == place)
    }

    /// Whether it names something cold. "On top of the fridge" and "out of the fridge" are warm for all the fridge in them, and cold
    /// water says of no place that it is.
    fn is_cold(&self) -> bool {
        let holds = |warm: &Range<usize>, cold: &Range<usize>| warm.start <= cold.start && cold.end <= warm.end;
        let in_warm = |cold: &Range<usize>| {
            self.0.iter().any(|(of, at)| matches!(of, StandsWhere::Warm | StandsWhere::Nowhere) && holds(at, cold))
        };
        self.0.iter().any(|(of, at)| *of == StandsWhere::Cold && !in_warm(at))
    }
}

/// Degrees of which nobody says whose they are: a vessel that stands for hours is no hotter than this, °C, and beyond it they are
/// Fahrenheit's (ours).
const WARMEST_BARE_C: f64 = 75.0;

/// "42 Grad", "45°".
fn bare_degrees(written: &[&str]) -> Option<f64> {
    let number = |word: &str| word.trim_end_matches('°').replace(',', ".").parse::<f64>().ok();
    let found = written.iter().enumerate().find_map(|(at, word)| {
        let next = written.get(at + 1).map(|next| words(next)).unwrap_or_default();
        let is_degrees = word.ends_with('°') || PlacesSaid::of(&next).says(StandsWhere::Degrees);
        number(word).filter(|_| is_degrees)
    })?;
    Some(if found > WARMEST_BARE_C { (found - 32.0) / 1.8 } else { found })
}

/// A piece of so many words that tells a time tells nothing else ("vier Tage"): it is of the piece before it.
const ONLY_A_TIME: usize = 3;

/// What a step tells: the longest, of those the warmest; a piece that warns of the counter tells of no standing there. What
/// steeps stands in the room where nothing in the step is cold; any other time without a place tells nothing, and neither does
/// a place without a time.
///
/// `None` where it tells of nothing that stands, or only of what stands cold.
pub(crate) fn standing(step: &str) -> Option<Stood> {
    let mut told: Option<Stood> = None;
    let mut before: Option<(f64, bool)> = None;
    let mut has_cooled = false;
    let is_cold_somewhere = PlacesSaid::of(&words(step)).is_cold();
    // "Warm to 45 °C and hold for 24 h" is two pieces
    for text in clauses(step).iter().flat_map(|clause| clause.text.split(" and ")) {
        let folded = words(text);
        let places = PlacesSaid::of(&folded);
        let says = |place: StandsWhere| places.says(place);
        let written: Vec<&str> = text.split_whitespace().collect();
        let has_number = written.iter().any(|word| word.starts_with(|c: char| c.is_ascii_digit()));
        let degrees = || {
            first_told(&written, |literal| match literal {
                Literal::Temperature(t) => Some(degrees_celsius(t)),
                _ => None,
            })
        };
        let here = match () {
            () if folded.iter().any(|word| StepWord::Not.has(word)) => None,
            // "put a date of 5 days on it"
            () if folded.iter().any(|word| StepWord::Written.has(word)) => None,
            () if let Some((_, t_c)) = has_number.then(degrees).flatten() => Some((t_c, true)),
            () if let Some(t_c) = has_number.then(|| bare_degrees(&written)).flatten() => Some((t_c, true)),
            () if places.is_cold() => None,
            () if says(StandsWhere::Warm) => Some((ROOM_C, true)),
            () if says(StandsWhere::Same) => before,
            () if (says(StandsWhere::Steeps) || is_left(&written)) && !is_cold_somewhere => Some((ROOM_C, false)),
            // what cools overnight stands in its pan; "keep cool for 2 weeks" is no such thing
            () if cools(&places) && !is_cold_somewhere => Some((ROOM_C, false)),
            () if has_cooled && time_first(&written, SpanEnd::Most).is_some() && !is_cold_somewhere => {
                Some((ROOM_C, false))
            }
            () if folded.len() <= ONLY_A_TIME => before,
            () => None,
        };
        has_cooled = cools(&places);
        let hours = here.and_then(|_| time(&written, SpanEnd::Most)).map(|told| told.seconds / SECONDS_AN_HOUR);
        if let (Some((t_c, is_placed)), Some(hours)) = (here, hours) {
            let this = Stood { hours, t_c, is_placed };
            let key = |s: &Stood| (s.hours, s.t_c);
            told = told.into_iter().chain([this]).max_by(|a, b| {
                let ((h, t), (of_h, of_t)) = (key(a), key(b));
                h.total_cmp(&of_h).then(t.total_cmp(&of_t))
            });
        }
        // "cool, strain, use within 2 weeks": what comes behind is not of it
        before = here.filter(|_| !has_cooled);
    }
    told
}

fn cools(places: &PlacesSaid) -> bool {
    places.says(StandsWhere::Cools) && !places.says(StandsWhere::Stores)
}

/// How warm it steeps by a clause that tells no time: "steep at 21 °C", "infuse at room temperature".
///
/// `None` where nothing steeps there, or nobody says where.
pub(crate) fn steeps_at(step: &str) -> Option<f64> {
    let of_clause = |text: &str| {
        let folded = words(text);
        let places = PlacesSaid::of(&folded);
        let written: Vec<&str> = text.split_whitespace().collect();
        let is_forbidden = folded.iter().any(|word| StepWord::Not.has(word));
        let degrees = |literal| matches!(literal, Literal::Temperature(_)).then_some(literal);
        let told = first_told(&written, degrees).and_then(|(_, literal)| match literal {
            Literal::Temperature(t) => Some(degrees_celsius(t)),
            _ => None,
        });
        let here = told.or_else(|| (places.says(StandsWhere::Warm) && !places.is_cold()).then_some(ROOM_C));
        here.filter(|_| places.says(StandsWhere::Steeps) && !is_forbidden && time(&written, SpanEnd::Most).is_none())
    };
    clauses(step).iter().filter_map(|clause| of_clause(clause.text)).reduce(f64::max)
}

/// Whether a text says that something stands or steeps, whatever it says of where and how long.
pub(crate) fn stands_or_steeps(text: &str) -> bool {
    let folded = words(text);
    let is_forbidden = || folded.iter().any(|word| StepWord::Not.has(word));
    standing(text).is_some() || PlacesSaid::of(&folded).says(StandsWhere::Steeps) && !is_forbidden()
}

/// "Leave 3 days", "leave the fruit in the sugar for 2 days"; mint leaves are folded to the same word.
fn is_left(written: &[&str]) -> bool {
    let is_time = |at: usize| written.get(at..).is_some_and(|rest| time_first(rest, SpanEnd::Most).is_some());
    let for_a_time = |at: usize| {
        let rest = written.iter().enumerate().skip(at);
        rest.into_iter().any(|(at, word)| word.eq_ignore_ascii_case("for") && is_time(at + 1))
    };
    let mut left = written.iter().enumerate().filter(|(_, word)| word.eq_ignore_ascii_case("leave"));
    left.any(|(at, _)| is_time(at + 1) || for_a_time(at + 1))
}

/// What stands no longer than this is in the making, hours; longer it is kept (ours).
const IN_THE_MAKING_H: f64 = 72.0;

/// Whether a step tells that the finished thing is kept at room temperature: "store in the larder", "keeps for months on the
/// shelf", "no need to refrigerate".
pub(crate) fn is_kept_warm(step: &str) -> bool {
    let all = clauses(step);
    all.iter().enumerate().any(|(at, clause)| {
        let folded = words(clause.text);
        let places = PlacesSaid::of(&folded);
        let says = |place: StandsWhere| places.says(place);
        is_not_chilled(&folded) && !says(StandsWhere::ForAWhile) || {
            let is_brief = || {
                let told = time(&clause.words, SpanEnd::Most);
                told.is_some_and(|told| told.seconds / SECONDS_AN_HOUR <= IN_THE_MAKING_H)
            };
            // "vacuum-seal, back bar"
            let is_shelved = says(StandsWhere::Shelf) && folded.len() <= ONLY_A_PLACE;
            // a sentence of its own: "bei Raumtemperatur"
            let begins = at.checked_sub(1).and_then(|before| all.get(before)).is_none_or(|before| before.is_last);
            let is_sentence = || begins && clause.is_last && folded.len() <= ONLY_A_PLACE;
            let is_only_a_place = is_shelved || says(StandsWhere::Room) && is_sentence();
            let is_warm = || {
                let degrees = |literal| matches!(literal, Literal::Temperature(_)).then_some(literal);
                let told = first_told(&clause.words, degrees).map(|(_, literal)| literal);
                told.is_some_and(|literal| match literal {
                    Literal::Temperature(t) => (WARM_STORE_C..HOT_STORE_C).contains(&degrees_celsius(t)),
                    _ => false,
                })
            };
            let is_stored =
                says(StandsWhere::Stores) && (says(StandsWhere::Shelf) || says(StandsWhere::Room) || is_warm());
            let is_forbidden = folded.iter().any(|word| StepWord::Not.has(word));
            (is_only_a_place || is_stored) && !places.is_cold() && !is_forbidden && !is_brief()
        }
    })
}

/// "Keep at 21 °C": no fridge is so warm, and what is warmer is held hot, °C (ours).
const WARM_STORE_C: f64 = 10.0;
const HOT_STORE_C: f64 = 40.0;

/// A piece of so many words that names a shelf says that it goes there.
const ONLY_A_PLACE: usize = 3;

/// Whether a text says that something is not kept cold. So many words at the most stand between the two.
fn is_not_chilled(folded: &[String]) -> bool {
    const REACH: usize = 4;
    let forbids = |word: &String| StepWord::Not.has(word) || StepWord::Forbid.has(word);
    let chilled = |words: &[String]| PlacesSaid::of(words).says(StandsWhere::Chills);
    (0..folded.len()).any(|at| {
        let behind = folded.get(at + 1..).unwrap_or_default();
        folded.get(at).is_some_and(forbids) && chilled(behind.get(..REACH.min(behind.len())).unwrap_or_default())
    })
}
