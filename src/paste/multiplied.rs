//! An amount that is said so many times: "2x500g sugar", "limes x 4".

use crate::units::display::short;

const TIMES: [char; 2] = ['x', '×'];

/// "60 ml bourbon x 9" as "540 ml bourbon", with what was multiplied.
pub(super) fn all_of_them(line: &str) -> Option<(String, String)> {
    let words: Vec<&str> = line.split(' ').collect();
    let (number, rest) = match words.as_slice() {
        [number, rest @ .., times, n] if TIMES.iter().any(|x| times.eq_ignore_ascii_case(&x.to_string())) => {
            (*number, (rest, *n))
        }
        [number, rest @ .., last] => (*number, (rest, last.strip_prefix(TIMES)?)),
        _ => return None,
    };
    let (rest, n) = rest;
    let n: u32 = n.parse().ok().filter(|n| *n > 1)?;
    let end = number.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(number.len());
    let (each, unit) = number.split_at_checked(end)?;
    let all = short(f64::from(n) * each.parse::<f64>().ok()?).replace(',', "");
    Some((format!("{all}{unit} {}", rest.join(" ")), format!("{n} times {each}{unit}")))
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
