//! What happens to a batch: losses, heat, time, and how the product is kept.

use uom::si::time::second;

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{FLAG, FieldKind, FieldShape, FileReader, Given, Laid, Layout, TEXT, Value, layout, word};
use crate::units::display::as_read;
use crate::units::spans::{self, SpanEnd, ToldTime};
use crate::units::{Literal, NumberRange, Temperature, Time, degrees_celsius, literal, readers};
use crate::vocabulary::{Container, Fill, Word};

use super::model::{Keep, Loss, Takes};

impl Laid for Loss {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[loss]",
        "under [loss]",
        ("evaporated", EVAPORATED, "\"12 %\"", "of the water, on the stove or in the dryer", |loss, lost| {
            match lost.value {
                Some(share) => loss.evaporated = Some(Spanned { value: share, span: lost.span }),
                None => loss.evaporated_as_needed = Some(lost.span),
            }
        }),
        ("left_behind", LEFT_BEHIND, "\"3 %\"", "of the batch, in the pan and the funnel", left_behind),
    );
}

/// `None` where it is left open.
const EVAPORATED: FieldKind<Option<f64>> = FieldKind::new(FieldShape::Text, |given, reader| match &given.value.value {
    Value::Text(written) if literal::parse(written) == Ok(Literal::AsNeeded) => Some(None),
    _ => share(given, reader, "of the water", &NumberRange::all(0.0, 100.0, "%"), WHAT_IS_LOST).map(Some),
});

const LEFT_BEHIND: FieldKind<f64> = FieldKind::new(FieldShape::Text, |given, reader| {
    share(given, reader, "of the batch", &NumberRange::below(0.0, 100.0, "%"), WHAT_IS_LOST)
});

/// More than twice as much water as there is drink no ice gives.
const MORE_WATER: FieldKind<f64> = FieldKind::new(FieldShape::Text, |given, reader| {
    let help = "write the most that may still go in, as a share of what is bottled: more_water = \"15 %\"";
    share(given, reader, "of what is bottled", &NumberRange::all(0.0, 200.0, "%"), help)
});

const WHAT_IS_LOST: &str = "write what is lost, not what is left: \"3 %\"";

fn share(given: &Given<'_>, reader: &mut FileReader<'_>, of: &str, percent: &NumberRange, help: &str) -> Option<f64> {
    let key = &given.key.value;
    let literal = given.literal(reader, "a percentage")?;
    reader.refuse(match literal {
        Literal::Percent(share) if percent.holds(share * 100.0) => return Some(share),
        Literal::Percent(share) => given.out_of_range(
            format!("`{key}` is {} %; {}", as_read(share * 100.0), percent.expected()),
            &format!("a share {of}"),
            help,
        ),
        Literal::Number(number) => given.no_unit(number, &["%"]),
        _ => {
            let help = format!("write the share {of}: {key} = \"3 %\" is 3 g of each 100 g");
            given.wrong_dimension(&literal, "a percentage", &help)
        }
    })
}

/// `takes = "7 days"`, kept as written.
pub(super) const TAKES: FieldKind<Takes> = FieldKind::new(FieldShape::Text, |given, reader| {
    let written = given.text(reader)?;
    let time = time(given, reader, written, SpanEnd::Most, "write a number and a unit: \"12 h\", \"7 days\"")?;
    Some(Takes { written: written.to_owned(), time })
});

/// `at = "4 °C"`: how warm a stage stands.
pub(super) const AT: FieldKind<Temperature> = FieldKind::new(FieldShape::Text, |given, reader| {
    const HELP: &str = "write how warm it stands while it waits: \"4 °C\"";
    let found = match &given.value.value {
        Value::Number(number) => given.no_unit(*number, &["°C", "°F"]),
        _ => match readers::temperature(given.text(reader)?) {
            Ok(t) if STAND_C.contains(&degrees_celsius(t)) => return Some(t),
            Ok(t) => given.out_of_range(
                format!("`at` is {} °C; -30 to 100 °C was expected", as_read(degrees_celsius(t))),
                "not a place where it can stand",
                "is it °F? \"40 °F\" is 4 °C",
            ),
            Err(why) => {
                Diagnostic::error(why.code, why.title).at(given.value.span, "a temperature was expected").help(HELP)
            }
        },
    };
    reader.refuse(found)
});

/// Where a stage may stand, °C: a freezer to a water bath. A plausible range, common practice, no source.
const STAND_C: std::ops::RangeInclusive<f64> = -30.0..=100.0;

/// `labour = "20 min"`: the work for one batch.
pub(super) const LABOUR: FieldKind<Time> = FieldKind::new(FieldShape::Text, |given, reader| {
    let written = given.text(reader)?;
    time(given, reader, written, SpanEnd::Most, "write the work for one batch: \"20 min\", \"1.5 h\"")
});

/// Whether [`time`] reads a text.
pub(super) fn is_time(written: &str) -> bool {
    let words: Vec<&str> = written.split_whitespace().collect();
    matches!(literal::parse(written.trim()), Ok(Literal::Time(_))) || spans::time(&words, SpanEnd::Least).is_some()
}

/// In front of a time, that it may be longer.
const AT_LEAST: [&str; 8] =
    ["at least ", "minimum ", "min. ", "mindestens ", "au moins ", "al menos ", "por lo menos ", "almeno "];

pub(super) fn time(
    given: &Given<'_>,
    reader: &mut FileReader<'_>,
    written: &str,
    end: SpanEnd,
    help: &str,
) -> Option<Time> {
    // "at least 2 weeks" is two weeks: for how long more nobody says
    let least = |word: &&str| written.trim().get(..word.len()).is_some_and(|front| front.eq_ignore_ascii_case(word));
    if let Some(rest) = AT_LEAST.iter().find(|word| least(word)).and_then(|word| written.trim().get(word.len()..)) {
        let read = time(given, reader, rest, end, help)?;
        let taken = format!("`{}`: `{}` is taken as {}", given.key.value, written.trim(), rest.trim());
        reader.found.push(Diagnostic::note(Code::Understood, taken).at(given.value.span, "no longer than that"));
        return Some(read);
    }
    let words: Vec<&str> = written.split_whitespace().collect();
    let whole = |told: &ToldTime| told.written.split(' ').count() == words.len();
    match literal::parse(written.trim()) {
        Ok(Literal::Time(time)) if time > Time::default() => Some(time),
        // "4 to 6 weeks", "3 months", "overnight"
        _ if let Some(told) = spans::time(&words, end).filter(whole) => {
            let taken = format!("`{}`: `{}` is taken as {}", given.key.value, written.trim(), told.long);
            let found = Diagnostic::note(Code::Understood, taken);
            reader.found.push(found.at(given.value.span, "as long as that"));
            Some(Time::new::<second>(told.seconds)).filter(|time| *time > Time::default())
        }
        _ => {
            let title = format!("`{}`: `{}` is not a time", given.key.value, written.trim());
            let found = Diagnostic::error(Code::WrongDimension, title);
            reader.refuse(found.at(given.value.span, "a number of minutes, hours or days was expected").help(help))
        }
    }
}

/// What is filled warm is not filled hot: it earns nothing, and that is said.
const FILL: FieldKind<Fill> = FieldKind::new(FieldShape::Words(|| Fill::words().collect()), |given, reader| {
    let is_warm = |text: &str| ["warm", "lukewarm", "tepid"].contains(&text.trim().to_lowercase().as_str());
    if !given.value.value.text().is_some_and(is_warm) {
        return word::<Fill>().read(given, reader);
    }
    reader.found.push(
        Diagnostic::note(Code::Understood, "what is filled warm counts as filled cold")
            .at(given.value.span, "not hot")
            .help("only what is hot enough to treat the bottle counts as hot: fill = \"hot\", with heated = \"85 °C\""),
    );
    Some(Fill::Cold)
});

impl Laid for Keep {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[keep]",
        "under [keep]",
        ("fill", FILL, "\"hot\"", "filled hot or cold", |keep, fill| {
            keep.hot_filled = Some(fill.value == Fill::Hot)
        }),
        ("closed", FLAG, "true", "closed as soon as it is filled", closed),
        ("in", word::<Container>(), "\"glass\"", "what it is filled into", container),
        ("for_sale", FLAG, "true", "sold in that container", for_sale),
        ("opened", FLAG, "false", "has been opened", opened),
        ("store", TEXT, "\"fridge\"", "the store of the house that it is planned for", store),
        (
            "more_water",
            MORE_WATER,
            "\"15 %\"",
            "water that may still go in, to taste, as a share of its weight: the date holds with it",
            more_water
        ),
    );
}

impl Keep {
    /// Filled hot and closed, in what stays tight.
    pub fn is_closed_hot(&self) -> bool {
        self.hot_filled == Some(true) && self.closed == Some(true) && !self.is_hot_in_plastic()
    }

    /// Filled hot into plastic of which nobody says that it stands that.
    pub fn is_hot_in_plastic(&self) -> bool {
        self.hot_filled == Some(true) && self.container.is_some_and(|container| container.value == Container::Plastic)
    }
}
