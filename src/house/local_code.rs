//! `[[local_code]]`: the numbers of the authority, one block a product, as the house entered them. Whether they count is
//! judged elsewhere.

use std::ops::RangeInclusive;

use chrono::NaiveDate;

use crate::diagnostic::{Diagnostic, Span, Spanned};
use crate::input::{DAY, FLAG, FieldKind, FieldShape, FileReader, Laid, Layout, TEXT, Table, layout};
use crate::units::display::as_read;
use crate::units::{NumberRange, Temperature, degrees_celsius, readers};

/// What the house entered for one product.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LocalCode {
    /// Where the block stands.
    pub span: Span,
    /// For which card, by its name.
    pub product: Option<Spanned<String>>,
    /// Who says so.
    pub authority: Option<String>,
    /// Who entered it.
    pub entered_by: Option<String>,
    /// When.
    pub on: Option<Spanned<NaiveDate>>,
    /// Where it is written.
    pub reference: Option<String>,
    /// Days for food that needs control, 1 to 3650.
    pub days: Option<u32>,
    /// The warmest at which it may be kept, 0 to 10 °C.
    pub temperature: Option<Temperature>,
    /// An assessment of the product is on record.
    pub assessed: bool,
}

/// Cold holding that an authority may state, °C: the codes ask for 4 to 8 (FDA Food Code 2022, 3-501.16: 5), and what
/// is meant by 50 is 5.0 (the bounds are ours).
const COLD_C: RangeInclusive<f64> = 0.0..=10.0;

impl Laid for LocalCode {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[[local_code]]",
        ("product", TEXT, "\"Lime cordial\"", "the card that it is about, by its name", product),
        ("authority", STATED, "\"the council\"", "who says so", authority),
        ("entered_by", STATED, "\"A. Maker\"", "who entered it", entered_by),
        ("on", DAY, "2026-01-02", "when it was entered", on),
        ("reference", STATED, "\"letter 7\"", "where it is written", reference),
        ("days", DAYS, "5", "days for food that needs control", days),
        ("temperature", COLD, "\"5 °C\"", "the warmest at which it may be kept", temperature),
        ("assessed", FLAG, "true", "an assessment of the product is on record", assessed),
    );
}

/// The blocks of a house, each with its place.
pub(super) const BLOCKS: FieldKind<Vec<LocalCode>> =
    FieldKind::new(FieldShape::List(&FieldShape::Table(LocalCode::LAYOUT)), |given, reader| {
        let blocks = given.tables(reader);
        let read = |table: Spanned<&Table>, reader: &mut FileReader<'_>| LocalCode {
            span: table.span,
            ..LocalCode::LAYOUT.read(table.value, reader)
        };
        Some(blocks.into_iter().map(|table| read(table, reader)).collect())
    });

/// A text; a blank one states nothing.
const STATED: FieldKind<Option<String>> = FieldKind::new(FieldShape::Text, |given, reader| {
    let text = given.text(reader)?.trim();
    Some((!text.is_empty()).then(|| text.to_owned()))
});

const TEN_YEARS: NumberRange = NumberRange::whole(1.0, 3650.0, "days");
const DAYS: FieldKind<u32> = FieldKind::new(FieldShape::within(&TEN_YEARS), |given, reader| {
    given.within(reader, &TEN_YEARS, "write the days that the authority states").map(|days| days as u32)
});

const COLD: FieldKind<Temperature> = FieldKind::new(FieldShape::Text, |given, reader| {
    let said = match readers::temperature(given.text(reader)?) {
        Ok(t) if COLD_C.contains(&degrees_celsius(t)) => return Some(t),
        Ok(t) => given.out_of_range(
            format!("`temperature` is {} °C; 0 to 10 °C was expected", as_read(degrees_celsius(t))),
            "not a temperature that cold food is held at",
            "write the warmest at which the authority lets perishable food be kept: \"5 °C\"",
        ),
        Err(why) => {
            Diagnostic::error(why.code, why.title).at(given.value.span, "a temperature was expected").help("\"5 °C\"")
        }
    };
    reader.refuse(said)
});
