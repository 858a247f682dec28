//! Strength, sweetness and sourness: what the finished liquid shall be, and what was measured.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{Table, Value};
use crate::mixture::alcohol;
use crate::units::{Literal, in_grams_per_litre};

use super::keys;
use super::model::{Measured, Target, TargetKind};
use super::reader::Reader;

/// How a kind is written, and the limits of what can be.
struct Form {
    expected: &'static str,
    example: &'static str,
    low: f64,
    high: f64,
    why: &'static str,
}

fn form(kind: TargetKind) -> Form {
    // A litre of solid sugar or citric acid weighs about 1,600 g (CRC Handbook of Chemistry and Physics,
    // physical constants of organic compounds: sucrose 1.58, citric acid 1.67 g/cm3; from memory).
    let litre = "a litre of the dry crystals themselves weighs about 1600 g";
    match kind {
        TargetKind::Brix => Form {
            expected: "°Bx",
            example: "brix = 64",
            low: 0.0,
            high: 100.0,
            why: "grams of dissolved solids in 100 g: 0 to 100",
        },
        TargetKind::Abv => Form {
            expected: "percent alcohol by volume",
            example: "abv = 18",
            low: 0.0,
            high: 100.0,
            why: "millilitres of alcohol in 100 ml: 0 to 100",
        },
        TargetKind::Sugar => {
            Form { expected: "grams in a litre", example: "sugar = \"250 g/L\"", low: 0.0, high: 1600.0, why: litre }
        }
        TargetKind::Acid => {
            Form { expected: "grams in a litre", example: "acid = \"4 g/L\"", low: 0.0, high: 1600.0, why: litre }
        }
        TargetKind::Ph => Form {
            expected: "a pH",
            example: "ph = 3.4",
            low: 1.0,
            high: 9.0,
            why: "nothing that is drunk lies outside pH 1 to 9",
        },
    }
}

/// The targets, in card order.
pub(super) fn targets(reader: &mut Reader<'_>, table: &Table) -> Vec<Target> {
    keys::check(table, "[target]", keys::TARGET, &mut reader.found);
    let mut targets = Vec::new();
    for (key, value) in &table.entries {
        let Some(kind) = TargetKind::from_key(&key.value) else { continue };
        if let Some(read) = property(reader, kind, value) {
            targets.push(Target { kind, value: read.value, span: read.span });
        }
    }
    targets
}

/// A target as it is written on a command line: the number in the unit of its kind.
///
/// # Errors
/// What is wrong with it, its place counted in `written`.
pub fn target_value(kind: TargetKind, written: &str) -> Result<f64, Diagnostic> {
    let value = written.parse().map_or_else(|_| Value::Text(written.to_owned()), Value::Number);
    let mut reader = Reader { text: written, found: Vec::new(), no_basis: Vec::new() };
    let read = property(&mut reader, kind, &Spanned::new(value, 0..written.len()));
    let refusal = || Diagnostic::error(Code::NotANumber, format!("`{written}` is not a {}", kind.key()));
    read.map(|v| v.value).ok_or_else(|| reader.found.pop().unwrap_or_else(refusal))
}

/// The readings of a batch.
pub(super) fn measured(reader: &mut Reader<'_>, table: &Table) -> Measured {
    keys::check(table, "[measured]", keys::MEASURED, &mut reader.found);
    let mut read = |kind: TargetKind| table.get(kind.key()).and_then(|(_, value)| property(reader, kind, value));
    Measured {
        ph: read(TargetKind::Ph),
        brix: read(TargetKind::Brix),
        abv: read(TargetKind::Abv),
        acid: read(TargetKind::Acid),
        on: table.date("on", &mut reader.found).and_then(|day| day_read(reader, day)),
    }
}

/// A property in the unit of its kind, where it was given in a unit that the kind takes.
fn property(reader: &mut Reader<'_>, kind: TargetKind, value: &Spanned<Value>) -> Option<Spanned<f64>> {
    let form = form(kind);
    let literal = reader.literal(kind.key(), value, form.expected)?;
    let number = match (kind, literal) {
        (TargetKind::Brix | TargetKind::Abv | TargetKind::Ph, Literal::Number(n)) => n,
        (TargetKind::Brix, Literal::Brix(n)) => n,
        (TargetKind::Abv, Literal::Percent(share)) => share * 100.0,
        (TargetKind::Abv, Literal::Abv(percent)) => percent,
        (TargetKind::Abv, Literal::Proof(proof)) => {
            let abv = abv_of_us_proof(proof);
            reader.found.push(
                Diagnostic::note(
                    Code::Understood,
                    format!("proof was read as US proof: {abv:.2} % by volume at 20 °C"),
                )
                .at(value.span, "US proof")
                .help("the old UK proof is another scale: where that is meant, write per cent by volume instead"),
            );
            abv
        }
        (TargetKind::Sugar | TargetKind::Acid, Literal::Concentration(density)) => in_grams_per_litre(density),
        (TargetKind::Sugar | TargetKind::Acid, Literal::Number(n)) => {
            reader.no_unit(kind.key(), n, value.span, &["g/L"]);
            return None;
        }
        (TargetKind::Sugar | TargetKind::Acid, Literal::Percent(share)) => {
            let per_litre = share * 1000.0;
            let help = format!(
                "per cent of weight or of volume? A card takes grams in a litre: {0} g in 100 ml is {1} = \"{per_litre} g/L\"",
                share * 100.0,
                kind.key(),
            );
            reader.wrong(kind.key(), &literal, value.span, form.expected, &help);
            return None;
        }
        (_, literal) => {
            reader.wrong(
                kind.key(),
                &literal,
                value.span,
                form.expected,
                &format!("write for example {}", form.example),
            );
            return None;
        }
    };
    if (form.low..=form.high).contains(&number) {
        return Some(Spanned { value: number, span: value.span });
    }
    let title = format!("`{}` is {number}; {} to {} was expected", kind.key(), form.low, form.high);
    reader.out_of_range(title, value.span, form.why, &format!("write for example {}", form.example));
    None
}

/// Percent by volume at 20 °C of a strength in US proof, which is counted at 60 °F (27 CFR 5.1).
fn abv_of_us_proof(proof: f64) -> f64 {
    // A proof above 200 has no mass fraction: half of it is out of range and says so.
    alcohol::mass_fraction_of_proof(proof).map_or(proof / 2.0, |share| alcohol::abv_of(share).get())
}

fn day_read(reader: &mut Reader<'_>, day: Spanned<&str>) -> Option<Spanned<String>> {
    if is_day(day.value) {
        return Some(Spanned { value: day.value.to_owned(), span: day.span });
    }
    let shape = |c: char| if c.is_ascii_digit() { '0' } else { c };
    let title = match day.value.chars().map(shape).eq("0000-00-00".chars()) {
        true => format!("there is no {} in the calendar", day.value),
        false => format!("`{}` is not a day written year first", day.value),
    };
    reader.found.push(
        Diagnostic::error(Code::NotADate, title)
            .at(day.span, "year, month, day")
            .help("write the year first: on = 2026-11-20 is the 20th of November 2026"),
    );
    None
}

/// Whether this is a day of the calendar, written as ISO 8601 writes it.
fn is_day(day: &str) -> bool {
    let fields: Vec<&str> = day.split('-').collect();
    let [year, month, day] = fields.as_slice() else { return false };
    if (year.len(), month.len(), day.len()) != (4, 2, 2)
        || !fields.iter().all(|f| f.bytes().all(|b| b.is_ascii_digit()))
    {
        return false;
    }
    let (Ok(year), Ok(month), Ok(day)) = (year.parse::<u16>(), month.parse::<u8>(), day.parse::<u8>()) else {
        return false;
    };
    let leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    let days = match month {
        4 | 6 | 9 | 11 => 30,
        2 if leap => 29,
        2 => 28,
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        _ => return false,
    };
    (1..=days).contains(&day)
}

#[cfg(test)]
mod tests {
    use super::is_day;

    #[test]
    fn days_of_the_calendar() {
        assert!(is_day("2026-11-20") && is_day("2028-02-29") && is_day("2000-02-29"));
        for no in ["2026-02-29", "2100-02-29", "2026-13-01", "2026-00-10", "26-11-20", "2026-11-20T10:00", "+026-11-20"]
        {
            assert!(!is_day(no), "{no}");
        }
    }
}
