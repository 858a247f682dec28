//! The cautions as data: read once from `data/cautions.toml`.

use std::sync::LazyLock;

use crate::input;

use super::trigger::{self, Condition};
use crate::references;

const FILE: &str = include_str!("data/cautions.toml");

/// How serious a caution is, the most serious first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Level {
    /// Do not make or serve it as planned.
    Stop,
    /// Act on it.
    Warn,
    /// Know it.
    Note,
}

impl Level {
    /// The word that is printed.
    pub fn word(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Warn => "warn",
            Self::Note => "note",
        }
    }

    fn from_word(word: &str) -> Option<Self> {
        [Self::Stop, Self::Warn, Self::Note].into_iter().find(|l| l.word() == word)
    }
}

/// One caution as it stands in the data.
#[derive(Clone, Debug)]
pub struct CautionRule {
    /// Its stable id.
    pub id: String,
    /// How serious it is.
    pub level: Level,
    /// 1 = core set, 2 = second wave.
    pub priority: u8,
    /// When it speaks, as written.
    pub when: String,
    /// When it speaks.
    pub condition: Condition,
    /// What it says.
    pub message: String,
    /// The keys of its sources.
    pub source_ids: Vec<String>,
    /// Who decides; empty where nobody else does.
    pub defer_to: String,
    /// How sure its figures are.
    pub status: String,
    /// A note of which somebody has to be told: printed in its words, never only counted.
    pub tell: bool,
}

impl CautionRule {
    /// Its sources in words.
    pub fn sources(&self) -> Vec<String> {
        self.source_ids.iter().filter_map(|id| references::find(id)).map(|r| r.words().to_owned()).collect()
    }
}

/// The cautions, and what of the file could not be read.
pub struct Catalogue {
    /// The cautions in the order of the file.
    pub rules: Vec<CautionRule>,
    /// What could not be read: nothing may be judged while anything stands here.
    pub problems: Vec<String>,
}

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(|| read(FILE));

/// The embedded cautions.
pub fn catalogue() -> &'static Catalogue {
    &CATALOGUE
}

fn read(file: &str) -> Catalogue {
    let mut found = Vec::new();
    let table = input::parse(file, &mut found);
    let mut rules = Vec::new();
    let mut problems = Vec::new();
    for entry in table.tables("caution", &mut found) {
        match rule(entry.value, &mut found) {
            Ok(rule) => rules.push(rule),
            Err(problem) => problems.push(problem),
        }
    }
    problems.extend(found.into_iter().map(|d| d.title));
    Catalogue { rules, problems }
}

fn rule(entry: &input::Table, found: &mut Vec<crate::diagnostic::Diagnostic>) -> Result<CautionRule, String> {
    let mut text = |key: &str| {
        entry.text(key, found).map(|t| t.value.to_owned()).ok_or_else(|| format!("a caution has no `{key}`"))
    };
    let id = text("id")?;
    let severity = text("severity")?;
    let when = text("when")?;
    let (message, defer_to, status) = (text("message")?, text("defer_to")?, text("status")?);
    let condition = trigger::parse(&when).map_err(|error| format!("{id}: `{when}` {error}"))?;
    let level = Level::from_word(&severity).ok_or_else(|| format!("{id}: no severity `{severity}`"))?;
    let priority = match entry.number("priority", found).map(|n| n.value) {
        Some(1.0) => 1,
        Some(2.0) => 2,
        _ => return Err(format!("{id}: priority is 1 or 2")),
    };
    let source_ids: Vec<String> = entry.texts("source_ids", found).into_iter().map(|s| s.value).collect();
    if let Some(unknown) = source_ids.iter().find(|s| references::find(s).is_none()) {
        return Err(format!("{id}: no source `{unknown}`"));
    }
    let tell = entry.get("tell").is_some_and(|_| entry.flag("tell", found).is_none_or(|tell| tell.value));
    Ok(CautionRule { id, level, priority, when, condition, message, source_ids, defer_to, status, tell })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_caution_that_cannot_be_read_is_a_problem_and_not_a_silence() {
        let good = "[[caution]]\nid = \"a\"\nseverity = \"stop\"\npriority = 1\nwhen = \"ph > 4.6\"\nmessage = \"m\"\n\
                    source_ids = [\"MEM\"]\ndefer_to = \"\"\nstatus = \"\"\n";
        assert_eq!((read(good).rules.len(), read(good).problems.len()), (1, 0));
        for (from, to) in [("ph >", "pH >"), ("\"stop\"", "\"halt\""), ("MEM", "NOWHERE"), ("message", "massage")] {
            let bad = read(&good.replace(from, to));
            assert_eq!(bad.rules.len(), 0, "{to}");
            assert!(!bad.problems.is_empty(), "{to}");
        }
    }
}
