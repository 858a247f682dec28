//! `heated`: how hot a batch or a stage gets and for how long, in degrees or in the words of a kitchen.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{FieldKind, FieldShape, FileReader, Given, Value};
use crate::units::display::as_read;
use crate::units::heat_words::{WordHeat, heat_words, is_unheated, least_celsius};
use crate::units::spans::{SpanEnd, ToldTime};
use crate::units::{Literal, Temperature, celsius, degrees_celsius, literal};

use super::model::{Card, Heated, Stage};
use super::treatment::{is_time, time};

/// How hot a kitchen heats what it makes, °C: from a warm water bath to caramel. A plausible range,
/// common practice, no source.
const HEAT_C: std::ops::RangeInclusive<f64> = 30.0..=200.0;

/// What stands between how hot and how long.
const FOR_SO_LONG: [&str; 5] = [" for ", " für ", " pendant ", " durante ", " per "];

const HELP: &str = "write how hot it gets and for how long: \"85 °C for 5 min\", or \"85 °C\" alone; \"no\" where none of the liquid is";

/// What a card says of its heat.
pub(super) enum HeatSaid {
    Heated(Heated),
    NotHeated,
    /// In words that do not say how hot all of it gets.
    Untold(String),
}

pub(super) const HEATED: FieldKind<HeatSaid> = FieldKind::new(FieldShape::Text, |given, reader| {
    let written = match &given.value.value {
        Value::Text(written) => written,
        Value::Number(number) => return reader.refuse(given.no_unit(*number, &["°C", "°F"])),
        _ => return reader.refuse(given.wrong_type("a temperature in quotes").help(HELP)),
    };
    if is_unheated(written) {
        return Some(HeatSaid::NotHeated);
    }
    // "85 °C for 5 min", "85 °C, 5 min", "85 °C 5 min"
    let is_heat = |hot: &str| matches!(literal::parse(hot.trim()), Ok(Literal::Temperature(_)));
    let side_by_side = || {
        let spaces = written.match_indices(' ').map(|(at, _)| written.split_at(at));
        spaces.map(|(hot, long)| (hot.trim_end_matches(','), long)).rfind(|(hot, _)| is_heat(hot))
    };
    let joined = FOR_SO_LONG.iter().find_map(|joint| written.split_once(joint));
    let (hot, long) = match joined.or_else(side_by_side) {
        Some((hot, long)) => (hot, Some(long)),
        None => (written.as_str(), None),
    };
    // "65 °C, don't boil"
    if long.is_some_and(|long| !is_time(long)) && heat_words(written).is_some() {
        return in_words(given, reader, written);
    }
    let to = match literal::parse(hot.trim()) {
        Ok(Literal::Temperature(to)) => to,
        Ok(Literal::Number(number)) => return reader.refuse(given.no_unit(number, &["°C", "°F"])),
        _ => return in_words(given, reader, written),
    };
    is_in_range(given, reader, to)?;
    let hold = match long {
        Some(long) => Some(time(given, reader, long, SpanEnd::Least, HELP)?),
        None => None,
    };
    Some(HeatSaid::Heated(Heated { to, hold, bubbles: None }))
});

/// "Simmer 10 min", "gently, about 70 °C": what is counted of it is said.
fn in_words(given: &Given<'_>, reader: &mut FileReader<'_>, written: &str) -> Option<HeatSaid> {
    let Some(words) = heat_words(written) else {
        let title = format!("`heated` is `{}`: how hot all of it gets, and how long, is not said", written.trim());
        let found = Diagnostic::warning(Code::NotStated, title);
        reader.found.push(found.at(given.value.span, "read as a step of the method").help(HELP));
        return Some(HeatSaid::Untold(written.trim().to_owned()));
    };
    let (to, bubbles) = match words.hot {
        WordHeat::Told(to) => (to, None),
        WordHeat::Bubbles(bubbles) => (celsius(f64::from(least_celsius(bubbles))), Some(bubbles)),
    };
    is_in_range(given, reader, to)?;
    let hold = match &words.long {
        Some(ToldTime { long, .. }) => Some(time(given, reader, long, SpanEnd::Least, HELP)?),
        None => None,
    };
    let long = words.long.map_or_else(String::new, |told| format!(" for {}", told.long));
    let why = bubbles.map_or_else(String::new, |bubbles| format!(": a {bubbles} is at least that; measure yours"));
    let taken = format!("`heated`: `{}` is taken as {} °C{long}{why}", written.trim(), as_read(degrees_celsius(to)));
    reader.found.push(Diagnostic::note(Code::Understood, taken).at(given.value.span, "so hot"));
    Some(HeatSaid::Heated(Heated { to, hold, bubbles }))
}

/// How a stage is heated, or that it is not.
pub(super) fn heat(stage: &mut Stage, told: Spanned<HeatSaid>) {
    match told.value {
        HeatSaid::Heated(heated) => stage.heated = Some(Spanned { value: heated, span: told.span }),
        HeatSaid::NotHeated => stage.not_heated = Some(told.span),
        HeatSaid::Untold(words) => stage.heat_untold = Some(words),
    }
}

/// What does not say how hot all of it gets is a step: so it is read for what it does, and stands on the sheet.
pub(super) fn settle(card: &mut Card) {
    for stage in &mut card.stages {
        stage.steps.splice(0..0, stage.heat_untold.take());
    }
    card.steps.splice(0..0, card.last.heat_untold.take());
}

fn is_in_range(given: &Given<'_>, reader: &mut FileReader<'_>, to: Temperature) -> Option<()> {
    let to = degrees_celsius(to);
    if HEAT_C.contains(&to) {
        return Some(());
    }
    reader.refuse(given.out_of_range(
        format!("`heated` is {} °C; 30 to 200 °C was expected", as_read(to)),
        "not a heat that a kitchen uses",
        "is it °F? \"185 °F\" is 85 °C; of what is not heated write heated = \"no\"",
    ))
}
