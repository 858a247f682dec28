//! `explain`: where a number comes from, what a finding means, what the law asks.

use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use crate::card::{Card, TargetKind};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::properties::{Equation, equations, headlines};
use crate::references;
use crate::safety::{Market, STANDING_NOTE, law};
use crate::solver::{Options, solve};
use crate::spelling::nearest;
use crate::uncertainty::Budget;
use crate::vocabulary::table::{List, rows};

use super::parts::property_key;
use super::{Report, View};

pub(crate) type ExplainReport = Report<ExplainView>;
pub(crate) type BudgetReport = Report<BudgetView>;

/// A word that a sheet, a date or a cost uses, and what it stands for.
#[derive(Deserialize)]
struct SheetWord {
    word: String,
    also: List<String>,
    meaning: String,
}

static SHEET_WORDS: LazyLock<Vec<SheetWord>> =
    LazyLock::new(|| rows("sheet-words.csv", include_str!("sheet-words.csv")));

#[derive(Clone, Debug, Serialize)]
#[serde(untagged)]
pub(crate) enum ExplainView {
    Equations {
        /// Whether nothing was asked for: then these are all that can be.
        #[serde(skip)]
        all: bool,
        equations: Vec<EquationView>,
    },
    Code {
        code: Code,
        description: &'static str,
        /// None: a finding has none.
        equations: [EquationView; 0],
    },
    /// A word of a sheet.
    Word {
        word: &'static str,
        meaning: &'static str,
        /// None: a word has none.
        equations: [EquationView; 0],
    },
    Rules {
        /// The markets of the house; empty where it names none: then the rules of all.
        markets: Vec<&'static str>,
        rules: Vec<LawRuleView>,
        for_sale: &'static str,
        note: &'static str,
    },
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct EquationView {
    pub(crate) property: &'static str,
    pub(crate) unit: &'static str,
    pub(crate) equation: &'static str,
    pub(crate) range: &'static str,
    pub(crate) error: &'static str,
    pub(crate) sources: Vec<SourceView>,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct SourceView {
    pub(crate) key: &'static str,
    pub(crate) citation: &'static str,
    pub(crate) standing: &'static str,
    #[serde(skip)]
    pub(crate) words: String,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct LawRuleView {
    pub(crate) id: &'static str,
    pub(crate) market: &'static str,
    /// When it applies; empty where that is in its meaning.
    pub(crate) when: &'static str,
    pub(crate) asks: &'static str,
    pub(crate) status: &'static str,
    pub(crate) source: Option<&'static str>,
}

/// One number of a card and what stands behind it.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct BudgetView {
    /// Which number, by its key among the properties.
    #[serde(serialize_with = "as_property")]
    pub property: TargetKind,
    #[serde(flatten)]
    pub budget: Budget,
    pub equation: EquationView,
}

fn as_property<S: serde::Serializer>(kind: &TargetKind, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(property_key(*kind))
}

impl View for ExplainView {
    const VERB: &'static str = "explain";
    const KEYS: &'static str = "equations";
    const TELLS_NOTES: bool = false;
}

impl View for BudgetView {
    const VERB: &'static str = ExplainView::VERB;
    const KEYS: &'static str = "property value amount whole doubt better equation";
    const TELLS_NOTES: bool = false;
}

impl ExplainView {
    pub(crate) fn names() -> Self {
        Self::Equations { all: true, equations: equations().iter().map(EquationView::from).collect() }
    }

    /// The properties with a word in their name, or the finding with this code. Where nothing is called
    /// so there is none of either, and a finding says it.
    pub(crate) fn find(word: &str, found: &mut Vec<Diagnostic>) -> Self {
        let plain = |s: &str| s.to_lowercase().replace(['_', '-'], " ");
        let matching: Vec<_> =
            equations().iter().filter(|e| plain(&e.name).contains(&plain(word))).map(EquationView::from).collect();
        if !matching.is_empty() {
            return Self::Equations { all: false, equations: matching };
        }
        if let Some(code) = Code::ALL.iter().copied().find(|c| c.as_str() == word) {
            return Self::Code { code, description: code.description(), equations: [] };
        }
        let asked = plain(word);
        let is_asked = |row: &&SheetWord| row.word == asked || row.also.contains(&asked);
        if let Some(row) = SHEET_WORDS.iter().find(is_asked) {
            return Self::Word { word: &row.word, meaning: &row.meaning, equations: [] };
        }
        let words = SHEET_WORDS.iter().map(|row| row.word.as_str());
        let names =
            words.chain(equations().iter().map(|e| e.name.as_str())).chain(Code::ALL.iter().map(|c| c.as_str()));
        let help = nearest(word, names).map_or_else(
            || "`stillroom explain` alone lists what can be asked for".to_owned(),
            |near| format!("did you mean `{near}`?"),
        );
        found.push(Diagnostic::error(Code::BadArgument, format!("nothing is called `{word}` here")).help(help));
        Self::Equations { all: false, equations: matching }
    }

    /// The rules of the house's markets; of all, where it names none.
    pub(crate) fn rules(house: &House) -> Self {
        let markets: Vec<Market> = house.settings.markets.clone();
        let view = |rule: &'static law::LawRule| LawRuleView {
            id: &rule.id,
            market: rule.market.as_str(),
            when: &rule.test,
            asks: &rule.meaning,
            status: &rule.status,
            source: Some(rule.source_id.reference().words()),
        };
        Self::Rules {
            rules: law::rules(&markets).into_iter().map(view).collect(),
            markets: markets.iter().map(|market| market.code()).collect(),
            for_sale: law::SPIRITS_FOR_SALE,
            note: STANDING_NOTE,
        }
    }
}

impl From<&'static Equation> for EquationView {
    fn from(e: &'static Equation) -> Self {
        let source = |s: &'static references::Reference| SourceView {
            key: &s.key,
            citation: s.words(),
            standing: s.standing.words(),
            words: s.with_standing(),
        };
        Self {
            property: &e.name,
            unit: &e.unit,
            equation: &e.equation,
            range: &e.range,
            error: &e.error,
            sources: e.sources.iter().map(|key| source(key.reference())).collect(),
        }
    }
}

impl BudgetView {
    /// `None` where a card has none of it.
    pub(crate) fn of_card(kind: TargetKind, card: &Card, house: &House, found: &mut Vec<Diagnostic>) -> Option<Self> {
        let solved = solve(card, house, &Options::default()).told(found)?;
        let Some(budget) = Budget::of_target(&solved, &house.settings.instruments, kind) else {
            let title = format!("{} has no {} that can be given", solved.name, kind.key());
            return Diagnostic::note(Code::PropertyUnknown, title).refused(found);
        };
        let equation = EquationView::from(budget.headline.equation());
        Some(Self { property: kind, budget, equation })
    }

    /// The number that is called so.
    ///
    /// # Errors
    /// The finding that says that no card has a budget of it.
    pub(crate) fn kind(word: &str) -> Result<TargetKind, Diagnostic> {
        let keys: Vec<_> = headlines().map(|(kind, _)| kind.key()).collect();
        let kind = TargetKind::from_key(&word.to_lowercase()).filter(|kind| keys.contains(&kind.key()));
        kind.ok_or_else(|| {
            let help = nearest(word, keys.iter().copied()).map_or_else(
                || format!("ask for one of {}; `stillroom explain {word}` tells its equation", keys.join(", ")),
                |near| format!("did you mean `{near}`?"),
            );
            Diagnostic::error(Code::BadArgument, format!("`{word}` of a card has no budget")).help(help)
        })
    }
}
