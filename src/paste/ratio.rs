//! Ratio recipes: "2:1 demerara to water", "equal parts sugar and water".

use super::draft::{DraftPart, Remark};
use super::names::Names;

/// The parts of a line that is a ratio; the basis is told, or asked, elsewhere.
pub(super) fn ratio(line: &str, names: Names<'_>) -> Option<Vec<DraftPart>> {
    let line = line.trim_end_matches('.');
    let (shares, things) = shares_in_front(line).or_else(|| equal(line)).or_else(|| shares_behind(line))?;
    let things: Vec<String> = things.iter().map(|thing| without_basis(thing)).collect();
    let shares = if shares.len() == 1 { vec![shares.first()?.clone(); things.len()] } else { shares };
    if shares.len() != things.len() || things.len() < 2 || !things.iter().any(|thing| names.knows(thing)) {
        return None;
    }
    let part = |(share, thing): (String, String)| {
        let unit = if share == "1" { "part" } else { "parts" };
        let mut part = DraftPart { label: thing, amount: Some(format!("{share} {unit}")), ..DraftPart::default() };
        if !names.knows(&part.label) {
            let ask = format!("not known here: stillroom larder add \"{}\"", part.label.replace('"', "'"));
            part.remarks.push(Remark::Unknown(ask));
        }
        part
    };
    Some(shares.into_iter().zip(things).map(part).collect())
}

/// "2:1", "1:1:1".
fn shares(word: &str) -> Option<Vec<String>> {
    let shares: Vec<String> = word.split(':').map(str::to_owned).collect();
    let is_number = |share: &String| share.parse::<f64>().is_ok_and(|share| share > 0.0 && share.is_finite());
    (shares.len() > 1 && shares.iter().all(is_number)).then_some(shares)
}

fn shares_in_front(line: &str) -> Option<(Vec<String>, Vec<String>)> {
    let (first, rest) = line.split_once(' ')?;
    Some((shares(first)?, things(rest)))
}

/// "demerara to water 2:1", "sugar and water, 1:1".
fn shares_behind(line: &str) -> Option<(Vec<String>, Vec<String>)> {
    let (rest, last) = line.rsplit_once(' ')?;
    Some((shares(last)?, things(rest.trim_end_matches([',', ':']))))
}

fn equal(line: &str) -> Option<(Vec<String>, Vec<String>)> {
    let lower = line.to_lowercase();
    let begins = ["equal parts of ", "equal parts ", "equal weights of ", "equal weights ", "equal volumes of "];
    let begin = begins.iter().find(|begin| lower.starts_with(**begin))?;
    Some((vec!["1".to_owned()], things(line.get(begin.len()..)?)))
}

fn things(text: &str) -> Vec<String> {
    let text = text.strip_prefix("of ").unwrap_or(text);
    let parted = text.replace(" to ", ", ").replace(" and ", ", ").replace(" : ", ", ").replace(" / ", ", ");
    parted.split(',').map(|thing| thing.trim().to_owned()).filter(|thing| !thing.is_empty()).collect()
}

fn without_basis(thing: &str) -> String {
    let ends = ["by weight", "by volume", "by mass", "(by weight)", "(by volume)"];
    let end = ends.iter().find_map(|end| thing.strip_suffix(end));
    end.unwrap_or(thing).trim().to_owned()
}
