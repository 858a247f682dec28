//! An amount that is said so many times: "2x500g sugar", "limes x 4".

use crate::units::display::short;

const TIMES: [char; 2] = ['x', '×'];

/// An amount of which the front alone would be multiplied.
pub(super) struct NotPlain;

/// The first word of a line that is said so many times at its end, the words between, and how many times.
fn times<'l>(words: &[&'l str]) -> Option<(&'l str, Vec<&'l str>, u32)> {
    let (number, rest, n) = match words {
        [number, rest @ .., times, n] if TIMES.iter().any(|x| times.eq_ignore_ascii_case(&x.to_string())) => {
            (number, rest, *n)
        }
        [number, rest @ .., last] => (number, rest, last.strip_prefix(TIMES)?),
        _ => return None,
    };
    let n: u32 = n.parse().ok().filter(|n| *n > 1)?;
    number.starts_with(char::is_numeric).then(|| (*number, rest.to_vec(), n))
}

/// "60 ml bourbon x 9" as "540 ml bourbon", with what was multiplied; of an amount that is no plain number ("1 1/2 kg", "1,5 l",
/// "500 - 600 g") that it is none.
pub(super) fn all_of_them(line: &str) -> Option<Result<(String, String), NotPlain>> {
    let words: Vec<&str> = line.split(' ').collect();
    let (number, rest, n) = times(&words)?;
    let end = number.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(number.len());
    let (each, unit) = number.split_at_checked(end)?;
    let is_number = |word: &&str| word.chars().all(|c| c.is_numeric() || "/.,".contains(c));
    let is_plain = unit.chars().all(char::is_alphabetic) && !rest.iter().any(is_number);
    Some(match each.parse::<f64>() {
        Ok(number) if is_plain => {
            let all = short(f64::from(n) * number).replace(',', "");
            Ok((format!("{all}{unit} {}", rest.join(" ")), format!("{n} times {each}{unit}")))
        }
        _ => Err(NotPlain),
    })
}

/// "2x500g sugar" is "1000g sugar", and "limes x 4, juice" is "4 limes, juice".
pub(super) fn so_many_times(line: &str) -> String {
    let begins = |text: &str| text.starts_with(|c: char| c.is_ascii_digit());
    let all_of = |word: &str| {
        let (n, size) = word.split_once(TIMES)?;
        let end = size.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(size.len());
        let (number, unit) = size.split_at_checked(end)?;
        let (n, number): (u32, f64) = (n.parse().ok()?, number.parse().ok()?);
        Some(format!("{}{unit}", short(f64::from(n) * number).replace(',', "")))
    };
    let words: Vec<String> = line.split(' ').map(|word| all_of(word).unwrap_or_else(|| word.to_owned())).collect();
    let at = words.iter().position(|word| word.len() <= 2 && word.trim_matches(TIMES).is_empty() && !word.is_empty());
    let counted =
        at.filter(|_| !begins(line)).and_then(|at| Some((words.get(..at)?, words.get(at + 1)?, words.get(at + 2..)?)));
    match counted.filter(|(name, number, _)| !name.is_empty() && begins(number)) {
        Some((name, number, rest)) => {
            let bare = number.trim_end_matches(',');
            let comma = if bare.len() < number.len() { "," } else { "" };
            let rest: String = rest.iter().map(|word| format!(" {word}")).collect();
            format!("{bare} {}{comma}{rest}", name.join(" "))
        }
        None => words.join(" "),
    }
}
