//! The cautions as data: read once from `data/cautions.toml`.

use std::collections::HashSet;
use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use crate::references::Key;

use super::figures::Figure;
use super::trigger::{self, Condition};

const FILE: &str = include_str!("data/cautions.toml");

/// How serious a caution is, the most serious first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
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
    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Warn => "warn",
            Self::Note => "note",
        }
    }
}

/// Which stages a caution is asked of as well, each by what is in its pan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StageScope {
    /// Those with spirit in them.
    Spirit,
    /// Those that are heated.
    Heated,
}

/// What of an answer says the same as a caution, which then is not said twice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SaidBy {
    /// The dates: that it needs cold, that its pH is not known, what grows in it.
    Dates,
    /// The line of the allergens: of whom nothing is stated.
    Allergens,
}

/// One caution as it stands in the data.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CautionRule {
    /// Its stable id.
    pub id: String,
    /// How serious it is.
    pub severity: Level,
    /// 1 = core set, 2 = second wave.
    pub priority: u8,
    /// When it speaks, as written.
    pub when: String,
    /// When it speaks.
    #[serde(skip)]
    pub condition: Condition,
    /// What it says.
    pub message: String,
    /// The same in a line of a pinned-up sheet.
    pub brief: String,
    /// The keys of its sources.
    pub source_ids: Vec<Key>,
    /// Who decides; empty where nobody else does.
    pub defer_to: String,
    /// How sure its figures are.
    pub status: String,
    /// A note of which somebody has to be told: printed in its words, never only counted.
    #[serde(default)]
    pub tell: bool,
    /// What of the answer says the same already; `None` where nothing else does.
    pub said_by: Option<SaidBy>,
    /// The stages that it is asked of as well; `None`: of the product alone.
    pub stages: Option<StageScope>,
    /// What it is said with: the doses and limits that it stands on.
    #[serde(default)]
    pub figures: Vec<Figure>,
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

/// Reads cautions as they are written in the data, TOML. What cannot be read of them is a problem, and no caution is left out in
/// silence.
pub fn read(file: &str) -> Catalogue {
    #[derive(Deserialize)]
    struct File {
        caution: Vec<CautionRule>,
    }
    let mut rules = match toml::from_str::<File>(file) {
        Ok(file) => file.caution,
        Err(error) => return Catalogue { rules: Vec::new(), problems: vec![error.to_string()] },
    };
    let mut problems = Vec::new();
    for rule in &mut rules {
        match trigger::parse(&rule.when) {
            Ok(condition) => rule.condition = condition,
            Err(error) => problems.push(format!("{}: `{}` {error}", rule.id, rule.when)),
        }
    }
    let mut ids = HashSet::new();
    problems.extend(rules.iter().filter(|r| !ids.insert(&r.id)).map(|r| format!("two cautions are called {}", r.id)));
    Catalogue { rules, problems }
}
