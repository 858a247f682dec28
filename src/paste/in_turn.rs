//! Several waits that the steps tell, one behind the other: "leave overnight. Add the gin. Leave for 4 weeks".

use uom::si::time::second;

use crate::units::display::short;
use crate::units::{Literal, literal};

use super::draft::{DraftLine, Remark};
use super::waited::Waited;

const HOUR_S: f64 = 3600.0;
const DAY_S: f64 = 24.0 * HOUR_S;

/// How long all of them take, and how cold it stands meanwhile: where they do not stand in one place, nobody has said.
pub(super) fn in_turn(waits: Vec<Waited>) -> (Vec<DraftLine>, Option<DraftLine>) {
    let mut apart: Vec<(f64, &Waited)> = Vec::new();
    for wait in &waits {
        // "steep 12 h; after 12 hours strain" tells of one
        let told = seconds(&wait.takes).filter(|seconds| apart.iter().all(|(known, _)| known != seconds));
        apart.extend(told.map(|seconds| (seconds, wait)));
    }
    let first_at = waits.first().and_then(|wait| wait.at.clone());
    if apart.len() < 2 {
        return (waits.into_iter().map(|wait| wait.takes).collect(), first_at);
    }
    let total: f64 = apart.iter().map(|(seconds, _)| seconds).sum();
    let written: Vec<&str> = apart.iter().filter_map(|(_, wait)| written(&wait.takes)).collect();
    let takes =
        if total >= DAY_S { format!("{} days", short(total / DAY_S)) } else { format!("{} h", short(total / HOUR_S)) };
    let is_one_place = apart.iter().all(|(_, wait)| wait.at == first_at);
    let said = Remark::Assumed(format!("{}, one after the other", written.join(" and ")));
    let line = DraftLine::text("takes", &takes).with(said);
    let questions = apart.iter().filter(|_| is_one_place).flat_map(|(_, wait)| &wait.takes.remarks);
    let questions = questions.filter(|remark| matches!(remark, Remark::Question(_))).cloned();
    let line =
        questions.fold(line, |line, remark| if line.remarks.contains(&remark) { line } else { line.with(remark) });
    let open = waits.iter().filter(|wait| seconds(&wait.takes).is_none()).map(|wait| wait.takes.clone());
    (std::iter::once(line).chain(open).collect(), first_at.filter(|_| is_one_place))
}

fn written(takes: &DraftLine) -> Option<&str> {
    Some(takes.toml.split_once(" = ")?.1.trim_matches('"'))
}

fn seconds(takes: &DraftLine) -> Option<f64> {
    match literal::parse(written(takes)?) {
        Ok(Literal::Time(time)) => Some(time.get::<second>()),
        _ => None,
    }
}
