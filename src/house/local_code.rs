//! `[local_code]`: the numbers of the authority, as the house entered them. Whether they count is judged elsewhere.

use std::ops::RangeInclusive;

use chrono::NaiveDate;

use crate::diagnostic::Diagnostic;
use crate::input::{DAY, FieldKind, FieldShape, Laid, Layout, TEXTS, layout};
use crate::units::{Temperature, degrees_celsius, readers};

/// What the house entered.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LocalCode {
    /// Who says so.
    pub authority: Option<String>,
    /// Who entered it.
    pub entered_by: Option<String>,
    /// When.
    pub on: Option<NaiveDate>,
    /// Where it is written.
    pub reference: Option<String>,
    /// Days for perishable food, 1 to 3650.
    pub days: Option<u32>,
    /// The warmest at which perishable food may be kept, 0 to 10 °C.
    pub temperature: Option<Temperature>,
    /// Days for anything, 1 to 3650.
    pub max_days: Option<u32>,
    /// Products of which an assessment is on record, in small letters.
    pub assessed: Vec<String>,
}

/// Cold holding that an authority may state, °C: the codes ask for 4 to 8 (FDA Food Code 2022, 3-501.16: 5), and what
/// is meant by 50 is 5.0 (the bounds are ours).
const COLD_C: RangeInclusive<f64> = 0.0..=10.0;

impl Laid for LocalCode {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[local_code]",
        ("authority", STATED, "\"the council\"", "who says so", authority),
        ("entered_by", STATED, "\"A. Maker\"", "who entered it", entered_by),
        ("on", DAY, "2026-01-02", "when it was entered", on),
        ("reference", STATED, "\"letter 7\"", "where it is written", reference),
        ("days", DAYS, "5", "days for perishable food", days),
        ("temperature", COLD, "\"5 °C\"", "the warmest at which perishable food may be kept", temperature),
        ("max_days", DAYS, "60", "days for anything", max_days),
        ("assessed", TEXTS, "[\"Lime cordial\"]", "products of which an assessment is on record", |code, names| {
            code.assessed = names.value.into_iter().map(|name| name.value.to_lowercase()).collect()
        }),
    );
}

/// A text; a blank one states nothing.
const STATED: FieldKind<Option<String>> = FieldKind::new(FieldShape::Text, |given, reader| {
    let text = given.text(reader)?.trim();
    Some((!text.is_empty()).then(|| text.to_owned()))
});

const DAYS: FieldKind<u32> = FieldKind::new(FieldShape::Number(1.0, 3650.0), |given, reader| {
    let number = given.number(reader)?;
    if (1.0..=3650.0).contains(&number) && number.fract() == 0.0 {
        // whole and at most 3650
        return Some(number as u32);
    }
    let title = format!("`{}` is {number}; whole days were expected", given.about.key);
    reader.refuse(given.out_of_range(title, "1 to 3650", "write the days that the authority states"))
});

const COLD: FieldKind<Temperature> = FieldKind::new(FieldShape::Text, |given, reader| {
    let said = match readers::temperature(given.text(reader)?) {
        Ok(t) if COLD_C.contains(&degrees_celsius(t)) => return Some(t),
        Ok(t) => given.out_of_range(
            format!("`temperature` is {:.1} °C; 0 to 10 °C was expected", degrees_celsius(t)),
            "not a temperature that cold food is held at",
            "write the warmest at which the authority lets perishable food be kept: \"5 °C\"",
        ),
        Err(why) => {
            Diagnostic::error(why.code, why.title).at(given.value.span, "a temperature was expected").help("\"5 °C\"")
        }
    };
    reader.refuse(said)
});
