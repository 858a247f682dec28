//! A unit that is read in one of two ways without a question: which way, so that it can be said.

use super::Reading;
use super::display::grouped;
use super::measures::{MEASURES, Measure, normalised};

/// A unit that has a US and an imperial reading and is taken as the US one where its country is not named.
struct Taken {
    /// The reading that is taken, by its name among the units.
    as_unit: &'static str,
    words: &'static str,
    /// The other, as it is written, by its name among the units.
    other: &'static str,
    other_written: &'static str,
}

const TAKEN: &[Taken] =
    &[Taken { as_unit: "fl oz (US)", words: "US fluid ounces", other: "fl oz (imp)", other_written: "imp fl oz" }];

/// What was taken for granted of the units of these amounts: "8 fl oz is read as US fluid ounces of 29.57 ml; write
/// `imp fl oz` for 28.41 ml". Nothing where there is one reading, or the country is named.
pub(crate) fn taken<'a>(written: impl IntoIterator<Item = &'a Reading>) -> Vec<String> {
    let written: Vec<&Reading> = written.into_iter().collect();
    let ml = |name: &str| MEASURES.iter().find(|m: &&Measure| m.name == name).map(|m| grouped(m.factor, 2));
    let said = |taken: &Taken| {
        let mut amounts: Vec<_> =
            written.iter().filter(|read| is_taken(read, taken)).map(|read| read.text.trim()).collect();
        amounts.dedup();
        let verb = if amounts.len() == 1 { "is" } else { "are" };
        let (one, other) = (ml(taken.as_unit)?, ml(taken.other)?);
        let amounts = Some(amounts.join(", ")).filter(|all| !all.is_empty())?;
        let Taken { words, other_written, .. } = taken;
        Some(format!("{amounts} {verb} read as {words} of {one} ml; write `{other_written}` for {other} ml"))
    };
    TAKEN.iter().filter_map(said).collect()
}

fn is_taken(read: &Reading, taken: &Taken) -> bool {
    let names_it = || normalised(&read.text).split(|c: char| !c.is_alphabetic()).any(|word| word == "us");
    read.measure.is_some_and(|measure| measure.name == taken.as_unit) && !names_it()
}

#[cfg(test)]
mod tests {
    use super::super::literal;
    use super::*;

    fn taken_of(written: &[&str]) -> Vec<String> {
        taken(&written.iter().filter_map(|text| literal::read(text).ok()).collect::<Vec<_>>())
    }

    #[test]
    fn only_what_has_two_readings_and_names_no_country() {
        let said =
            |amounts: &str| format!("{amounts} read as US fluid ounces of 29.57 ml; write `imp fl oz` for 28.41 ml");
        assert_eq!(taken_of(&["8 fl oz"]), [said("8 fl oz is")]);
        assert_eq!(taken_of(&["8 fl oz", "1 L", "6 x 8 fl oz"]), [said("8 fl oz, 6 x 8 fl oz are")]);
        for two in ["0.5 fl. oz.", "2 fl oz/L", "1 fluid ounce"] {
            let subject = format!("{two} is");
            assert_eq!(taken_of(&[two]), [said(&subject)]);
        }
        let one =
            ["8 US fl oz", "8 fl oz (US)", "8 imp fl oz", "8 fl oz UK", "240 ml", "1 jigger oz", "1 label fl oz", ""];
        assert!(taken_of(&one).is_empty());
    }
}
