//! What a step tells of standing warm: "hold at 45 °C for 24 h", "leave on the counter overnight".

use std::sync::LazyLock;

use crate::spelling::words;
use crate::units::spans::{SpanEnd, time};
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
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum StandsWhere {
    Warm,
    Cold,
    Same,
    Steeps,
}

#[derive(Deserialize)]
struct StandingRow {
    place: StandsWhere,
    words: String,
}

static PLACES: LazyLock<Vec<(StandsWhere, Vec<String>)>> = LazyLock::new(|| {
    let rows: Vec<StandingRow> = table::rows("standing-words.csv", include_str!("data/standing-words.csv"));
    rows.into_iter().map(|row| (row.place, words(&row.words))).collect()
});

/// What a step tells: the longest, of those the warmest; a piece that warns of the counter tells of no standing there. What
/// steeps stands in the room where nothing in the step is cold; any other time without a place tells nothing, and neither does
/// a place without a time.
///
/// `None` where it tells of nothing that stands, or only of what stands cold.
pub(crate) fn standing(step: &str) -> Option<Stood> {
    let mut told: Option<Stood> = None;
    let mut before: Option<f64> = None;
    let in_step = words(step);
    let says_in = |folded: &[String], place: StandsWhere| {
        PLACES.iter().any(|(of, row)| *of == place && folded.windows(row.len().max(1)).any(|at| at == row.as_slice()))
    };
    let is_cold_somewhere = says_in(&in_step, StandsWhere::Cold);
    // "Warm to 45 °C and hold for 24 h" is two pieces
    for text in clauses(step).iter().flat_map(|clause| clause.text.split(" and ")) {
        let folded = words(text);
        let says = |place: StandsWhere| says_in(&folded, place);
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
            () if let Some((_, t_c)) = has_number.then(degrees).flatten() => Some(t_c),
            () if says(StandsWhere::Cold) => None,
            () if says(StandsWhere::Warm) => Some(ROOM_C),
            () if says(StandsWhere::Same) => before,
            () if says(StandsWhere::Steeps) && !is_cold_somewhere => Some(ROOM_C),
            () => None,
        };
        let hours = here.and_then(|_| time(&written, SpanEnd::Most)).map(|told| told.seconds / SECONDS_AN_HOUR);
        if let (Some(t_c), Some(hours)) = (here, hours) {
            let this = Stood { hours, t_c };
            let key = |s: &Stood| (s.hours, s.t_c);
            told = told.into_iter().chain([this]).max_by(|a, b| {
                let ((h, t), (of_h, of_t)) = (key(a), key(b));
                h.total_cmp(&of_h).then(t.total_cmp(&of_t))
            });
        }
        before = here;
    }
    told
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_tells_how_long_it_stands_warm() {
        let at = |step| standing(step).map(|told| (told.hours, told.t_c));
        assert_eq!(at("Blend and hold at 45 °C for 24 h."), Some((24.0, 45.0)));
        assert_eq!(at("Warm to 45 °C and hold for 24 h"), Some((24.0, 45.0)));
        assert_eq!(at("Leave overnight on the counter."), Some((12.0, ROOM_C)));
        assert_eq!(at("Steep 2 days at room temperature, then strain"), Some((48.0, ROOM_C)));
        assert_eq!(at("Steep for 24 h, then strain"), Some((24.0, ROOM_C)));
        assert_eq!(at("Warm to 45 °C and strain, steep 24 h"), Some((24.0, ROOM_C)));
        assert_eq!(at("Über Nacht; 18 h bei Raumtemperatur ziehen lassen"), Some((18.0, ROOM_C)));
        for nothing in [
            "Leave overnight in the fridge",
            "Heat to 50 °C, cool, refrigerate for 24 h",
            "Do not leave it on the counter overnight",
            "Bring to room temperature, then stir",
            "Steep for 24 h. Keep it in the fridge.",
            "Simmer for 24 h",
        ] {
            assert_eq!(at(nothing), None, "{nothing}");
        }
    }
}
