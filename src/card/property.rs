//! Strength, sweetness and sourness: what the finished liquid shall be, and what was measured.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{
    DAY, FLAG, FieldKind, FieldShape, FileReader, Given, Hints, Laid, Layout, Table, Value, layout, word,
};
use crate::mixture::alcohol;
use crate::units::display::as_read;
use crate::units::{Literal, in_grams_per_litre};
use crate::vocabulary::PhBy;

use super::landed::TargetRange;
use super::model::{Measured, Target};
use super::room::{Wanted, sides, wanted};
use crate::properties::TargetKind;

/// A property as a card takes it: as it is written and as the schema has it, its limits, and why.
struct Form {
    expected: &'static str,
    least: f64,
    most: f64,
    why: &'static str,
}

const BRIX: Form =
    Form { expected: "°Bx", least: 0.0, most: 100.0, why: "grams of dissolved solids in 100 g: 0 to 100" };
const ABV: Form = Form {
    expected: "percent alcohol by volume",
    least: 0.0,
    most: 100.0,
    why: "millilitres of alcohol in 100 ml: 0 to 100",
};
/// A litre of solid sugar or citric acid weighs about 1,600 g (CRC Handbook of Chemistry and Physics, physical constants
/// of organic compounds: sucrose 1.58, citric acid 1.67 g/cm3; from memory).
const GRAMS_IN_A_LITRE: Form = Form {
    expected: "grams in a litre",
    least: 0.0,
    most: 1600.0,
    why: "a litre of the dry crystals themselves weighs about 1600 g",
};
const PH: Form = Form { expected: "a pH", least: 1.0, most: 9.0, why: "nothing that is drunk lies outside pH 1 to 9" };

impl Form {
    const fn shape(&self) -> FieldShape {
        FieldShape::Number(self.least, self.most)
    }
}

const BRIX_KIND: FieldKind<f64> =
    FieldKind::new(FieldShape::Either(&[BRIX.shape(), FieldShape::Text]), |given, reader| {
        let literal = given.literal(reader, BRIX.expected)?;
        match literal {
            Literal::Number(brix) | Literal::Brix(brix) => within(&BRIX, brix, given, reader),
            _ => wrong(&BRIX, &literal, given, reader),
        }
    });

pub(super) const ABV_KIND: FieldKind<f64> =
    FieldKind::new(FieldShape::Either(&[ABV.shape(), FieldShape::Text]), |given, reader| {
        let literal = given.literal(reader, ABV.expected)?;
        let abv =
            match literal {
                Literal::Number(percent) | Literal::Abv(percent) => percent,
                Literal::Percent(share) => share * 100.0,
                Literal::Proof(proof) => {
                    let abv = abv_of_us_proof(proof);
                    let title = format!("proof was read as US proof: {abv:.2} % by volume at 20 °C");
                    reader.found.push(Diagnostic::note(Code::Understood, title).at(given.value.span, "US proof").help(
                        "the old UK proof is another scale: where that is meant, write per cent by volume instead",
                    ));
                    abv
                }
                _ => return wrong(&ABV, &literal, given, reader),
            };
        within(&ABV, abv, given, reader)
    });

/// From a hundred on it can be no per cent: without a unit it is grams in a litre.
const NO_PERCENT: f64 = 100.0;

const CONCENTRATION_SHAPE: FieldShape =
    FieldShape::Either(&[FieldShape::Text, FieldShape::Number(NO_PERCENT, GRAMS_IN_A_LITRE.most)]);

const CONCENTRATION: FieldKind<f64> = FieldKind::new(CONCENTRATION_SHAPE, |given, reader| {
    let literal = given.literal(reader, GRAMS_IN_A_LITRE.expected)?;
    match literal {
        Literal::Number(number) if number >= NO_PERCENT => within(&GRAMS_IN_A_LITRE, number, given, reader),
        Literal::Concentration(density) => within(&GRAMS_IN_A_LITRE, in_grams_per_litre(density), given, reader),
        Literal::Number(number) => reader.refuse(given.no_unit(number, &["g/L"])),
        Literal::Percent(share) => {
            let (percent, per_litre) = (share * 100.0, share * 1000.0);
            let help = format!(
                "per cent of weight or of volume? A card takes grams in a litre: {percent} g in 100 ml is {} = \"{per_litre} g/L\"",
                given.key.value
            );
            reader.refuse(given.wrong_dimension(&literal, GRAMS_IN_A_LITRE.expected, &help))
        }
        _ => wrong(&GRAMS_IN_A_LITRE, &literal, given, reader),
    }
});

const PH_KIND: FieldKind<f64> = FieldKind::new(PH.shape(), |given, reader| {
    if given.value.value.text().and_then(sides).is_some() {
        let help = "write one number, ph = 3.2; brix, abv, sugar and acid take a range (\"12 to 16 g/L\")";
        let title = "`ph` takes one number and no range".to_owned();
        return reader.refuse(given.out_of_range(title, "a range", help));
    }
    let literal = given.literal(reader, PH.expected)?;
    match literal {
        Literal::Number(ph) => within(&PH, ph, given, reader),
        _ => wrong(&PH, &literal, given, reader),
    }
});

fn within(form: &Form, number: f64, given: &Given<'_>, reader: &mut FileReader<'_>) -> Option<f64> {
    if (form.least..=form.most).contains(&number) {
        return Some(number);
    }
    let title = format!("`{}` is {}; {} to {} was expected", given.key.value, as_read(number), form.least, form.most);
    reader.refuse(given.out_of_range(title, form.why, &format!("write for example {}", given.about.line())))
}

fn wrong(form: &Form, literal: &Literal, given: &Given<'_>, reader: &mut FileReader<'_>) -> Option<f64> {
    let help = format!("write for example {}", given.about.line());
    reader.refuse(given.wrong_dimension(literal, form.expected, &help))
}

/// Percent by volume at 20 °C of a strength in US proof, which is counted at 60 °F (27 CFR 5.1).
fn abv_of_us_proof(proof: f64) -> f64 {
    // A proof above 200 has no mass fraction: half of it is out of range and says so.
    alcohol::mass_fraction_of_proof(proof).map_or(proof / 2.0, |share| alcohol::abv_of(share).get())
}

const BRIX_ROOM: FieldKind<Wanted> = FieldKind::new(BRIX_KIND.shape, |given, reader| wanted(&BRIX_KIND, given, reader));
const ABV_ROOM: FieldKind<Wanted> = FieldKind::new(ABV_KIND.shape, |given, reader| wanted(&ABV_KIND, given, reader));
const CONCENTRATION_ROOM: FieldKind<Wanted> =
    FieldKind::new(CONCENTRATION.shape, |given, reader| wanted(&CONCENTRATION, given, reader));

/// What stands under `[target]`: numbers, and ranges.
#[derive(Default)]
pub(super) struct TargetTable {
    pub exact: Vec<Target>,
    pub ranges: Vec<TargetRange>,
}

impl TargetTable {
    fn put(&mut self, kind: TargetKind, Spanned { value, span }: Spanned<Wanted>) {
        match value {
            Wanted::Exactly(value) => self.exact.push(Target { kind, value, span }),
            Wanted::Between { least, most } => self.ranges.push(TargetRange { kind, least, most, span }),
        }
    }
}

impl Laid for TargetTable {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[target]",
        "under [target]",
        ("brix", BRIX_ROOM, "64", "dissolved solids, g in 100 g; a range has room: \"62 to 65\"", |all, brix| all
            .put(TargetKind::Brix, brix)),
        ("abv", ABV_ROOM, "18", "alcohol, % by volume at 20 °C; or \"18 to 20 %\", \"at least 18 %\"", |all, abv| all
            .put(TargetKind::Abv, abv)),
        ("sugar", CONCENTRATION_ROOM, "\"250 g/L\"", "sugars as weighed, at 20 °C; or a range", |all, sugar| {
            all.put(TargetKind::Sugar, sugar)
        }),
        (
            "acid",
            CONCENTRATION_ROOM,
            "\"4 g/L\"",
            "titratable acid to pH 8.1 as citric, at 20 °C; or a range",
            |all, acid| { all.put(TargetKind::Acid, acid) }
        ),
        ("ph", PH_KIND, "3.4", "pH at 20 °C", |all, ph| {
            all.exact.push(Target { kind: TargetKind::Ph, value: ph.value, span: ph.span })
        }),
    );
}

impl Laid for Measured {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[measured]",
        "under [measured]",
        ("ph", PH_KIND, "3.4", "pH at 20 °C", ph),
        ("brix", BRIX_KIND, "64", "°Bx, corrected to 20 °C", brix),
        ("abv", ABV_KIND, "18", "alcohol, % by volume at 20 °C", abv),
        ("acid", CONCENTRATION, "\"4 g/L\"", "titratable acid to pH 8.1 as citric", acid),
        ("ph_by", word::<PhBy>(), "\"meter\"", "what the pH was read with; a strip, where nobody says", ph_by),
        ("calibrated", FLAG, "true", "the meter was calibrated in two buffers that day", calibrated),
        ("on", DAY, "2026-11-20", "the day of the readings", on),
    );
}

/// A target as it is written on a command line: the number in the unit of its kind.
///
/// # Errors
/// What is wrong with it, its place counted in `written`.
pub(crate) fn target_value(kind: TargetKind, written: &str) -> Result<f64, Diagnostic> {
    let value = written.parse().map_or_else(|_| Value::Text(written.to_owned()), Value::Number);
    let place = 0..written.len();
    let table =
        Table { entries: vec![(Spanned::new(kind.key().to_owned(), place.clone()), Spanned::new(value, place))] };
    let mut reader = FileReader::new(written, &Hints::NONE, Vec::new());
    let read = TargetTable::LAYOUT.read(&table, &mut reader).exact;
    let refusal = || Diagnostic::error(Code::NotANumber, format!("`{written}` is not a {}", kind.key()));
    read.first().map(|target| target.value).ok_or_else(|| reader.found.pop().unwrap_or_else(refusal))
}
