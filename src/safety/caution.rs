//! What is said to the maker, and how it travels from a card into the cards that it is a part of.

use std::fmt;

use crate::references::Key;
use crate::vocabulary::{Market, or_all};

use super::catalogue::{CautionRule, Level, SaidBy, StageScope, catalogue};
use super::facts::{FactOrigin, Facts, Member};
use super::trigger::{Missing, Truth};
use super::variables::{self, Variable};

/// To be printed wherever cautions are, and where there are none.
pub const STANDING_NOTE: &str = "Advice from stated facts, not a certificate: the house answers for what it serves, its food \
                                 and licensing authority decides.";

/// Where an inner card's caution comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Carried {
    /// The cards on the way, the outermost first; the last is the one that it speaks of.
    pub path: Vec<String>,
    /// Whether it speaks of that card as it is kept on its own. Otherwise it goes on into all that it is put in.
    pub on_its_own: bool,
}

/// One caution raised.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    /// Its stable id.
    pub code: &'static str,
    /// How serious it is.
    pub severity: Level,
    /// What it says.
    pub message: &'static str,
    /// The same in a line.
    pub brief: &'static str,
    /// Where it comes from, in words.
    pub sources: Vec<String>,
    /// The keys of its sources in the bibliography.
    pub source_keys: &'static [Key],
    /// The doses and limits behind it, as far as they are known.
    pub figures: Vec<String>,
    /// Who decides; empty where nobody else does.
    pub defer_to: &'static str,
    /// How sure its figures are.
    pub status: &'static str,
    /// Whether it is told in its words even where notes are only counted.
    pub tell: bool,
    /// What of the answer says the same already.
    pub said_by: Option<SaidBy>,
    /// The tags and allergens that raised it.
    pub because: Vec<String>,
    /// What was not stated and would have to be for it to be silent: then it may not apply.
    pub not_stated: Vec<String>,
    /// That is nothing but how it is made, and no step or note tells of it.
    pub only_asks: bool,
    /// The markets in whose rules it stands; empty: everywhere.
    pub markets: Vec<Market>,
    /// Which inner card it was carried out of; `None` for the card's own.
    pub carried: Option<Carried>,
    /// Whether it goes on into whatever the product is put in.
    pub travels: bool,
}

impl Caution {
    /// Whether it says not to make or serve it as planned: surely, or until somebody has said that it is not so. What hangs
    /// on nothing but how it is made, of which no step or note tells, only asks.
    pub fn stops(&self) -> bool {
        self.severity == Level::Stop && !self.only_asks
    }

    /// Whether the facts that were stated suffice to raise it.
    pub fn is_certain(&self) -> bool {
        self.not_stated.is_empty()
    }

    /// Whether it would be said twice: the dates or the allergens of the answer say the same, or the card of the part that
    /// it speaks of does. A stop never is.
    pub fn is_said_elsewhere(&self) -> bool {
        let by_answer = match self.said_by {
            Some(SaidBy::Dates) => true,
            // which allergens there are is said as a warning as well, whom nobody asked is not
            Some(SaidBy::Allergens) => !self.is_certain(),
            None => false,
        };
        let by_part = self.carried.as_ref().is_some_and(|carried| carried.on_its_own);
        self.severity > Level::Stop && (by_answer || by_part)
    }
}

impl Caution {
    /// Whether it says no more than the list of allergens beside it.
    pub(crate) fn is_of_its_allergens(&self) -> bool {
        self.said_by == Some(SaidBy::Allergens) && self.severity > Level::Stop
    }

    /// Whether it says the same of the same card. What else a caution holds follows from its code.
    fn says_as_much_as(&self, other: &Self) -> bool {
        let what = |c: &Self| (c.code, c.severity, c.message);
        let whose = |c: &Self| c.carried.as_ref().map(|carried| (carried.path.last().cloned(), carried.on_its_own));
        what(self) == what(other)
            && self.because == other.because
            && self.not_stated == other.not_stated
            && self.markets == other.markets
            && whose(self) == whose(other)
    }
}

impl fmt::Display for Caution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(carried) = &self.carried {
            let inwards: Vec<&str> = carried.path.iter().rev().map(String::as_str).collect();
            let name = inwards.join(", in ");
            match carried.on_its_own {
                true => write!(f, "about {name}, before it goes in here: ")?,
                false => write!(f, "from {name}: ")?,
            }
        }
        if !self.not_stated.is_empty() {
            // a stop that hangs on an answer is a stop until then, and does not say that it may be none
            let until = if self.severity == Level::Stop { "until you answer" } else { "may apply, not stated" };
            write!(f, "{until}: {}. ", self.not_stated.join("; "))?;
        }
        f.write_str(self.message)?;
        if !self.because.is_empty() {
            write!(f, " ({})", self.because.join(", "))?;
        }
        Ok(())
    }
}

/// The cautions of a product, the most serious first, otherwise in the order of the data.
///
/// What is not known is never taken as favourable: a stop or a warning that hangs on a fact that was not stated is
/// raised and says which; a note that does is left out.
///
/// ```
/// use stillroom::safety::{Fact, Facts, Level, Members, Storage, Tcs, evaluate};
/// use stillroom::vocabulary::Process;
///
/// let mut facts = Facts { process: Members::none(), tags: Members::none(), ..Facts::default() };
/// facts.process.add(Process::ReducedOxygen);
/// facts.abv = Fact::Known(0.0);
/// (facts.storage, facts.tcs) = (Fact::Known(Storage::Ambient), Fact::Known(Tcs::Pa));
/// let stop = evaluate(&facts).into_iter().find(|c| c.stops()).unwrap();
/// assert_eq!((stop.code, stop.severity), ("rop_ambient", Level::Stop));
/// ```
pub fn evaluate(facts: &Facts) -> Vec<Caution> {
    raised(facts, |_| true)
}

/// The cautions that a stage raises by itself, from facts of what is in its pan.
pub fn evaluate_stage(facts: &Facts, holds_spirit: bool, is_heated: bool) -> Vec<Caution> {
    raised(facts, |rule| match rule.stages {
        Some(StageScope::Spirit) => holds_spirit,
        Some(StageScope::Heated) => is_heated,
        None => false,
    })
}

fn raised(facts: &Facts, is_asked: impl Fn(&CautionRule) -> bool) -> Vec<Caution> {
    let data = catalogue();
    let rules = data.rules.iter().filter(|rule| is_asked(rule));
    let mut raised: Vec<Caution> = rules.filter_map(|rule| judge(rule, facts)).collect();
    if !data.problems.is_empty() {
        raised.push(unreadable());
    }
    raised.sort_by_key(|c| c.severity);
    raised
}

/// The caution that stands for all those that could not be read.
fn unreadable() -> Caution {
    Caution {
        code: "safety_data",
        severity: Level::Stop,
        message: "The safety data of this program could not be read. Nothing was checked: treat it as unsafe.",
        brief: "nothing was checked: treat it as unsafe",
        sources: Vec::new(),
        source_keys: &[],
        figures: Vec::new(),
        defer_to: "local food authority",
        status: "",
        tell: true,
        said_by: None,
        because: Vec::new(),
        not_stated: Vec::new(),
        only_asks: false,
        markets: Vec::new(),
        carried: None,
        travels: true,
    }
}

fn judge(rule: &'static CautionRule, facts: &Facts) -> Option<Caution> {
    let variables = rule.condition.variables();
    let by_market = variables.contains(&Variable::Market);
    let asked = or_all(&facts.market);
    // A rule that does not look at the market is asked once.
    let asked = if by_market { asked } else { asked.get(..1)? };
    let answers: Vec<(Market, Truth)> = asked.iter().map(|&m| (m, rule.condition.evaluate(facts, m))).collect();
    let truth = answers.iter().fold(Truth::False, |any, (_, answer)| any.or(answer.clone()));
    let missing = match truth {
        Truth::True => Vec::new(),
        Truth::Unknown(missing) if rule.severity < Level::Note => missing.into_iter().collect(),
        Truth::Unknown(_) | Truth::False => return None,
    };
    let certain = missing.is_empty();
    let speaks = |answer: &Truth| if certain { *answer == Truth::True } else { *answer != Truth::False };
    let markets =
        if by_market { answers.iter().filter(|(_, a)| speaks(a)).map(|(m, _)| *m).collect() } else { Vec::new() };
    // Who is asked for a value is not asked for its uncertainty as well.
    let is_of_missing = |m: &Missing| match m.variable {
        Variable::Quantity(quantity) => quantity
            .uncertainty_of()
            .is_some_and(|value| missing.iter().any(|other| other.variable == Variable::Quantity(value))),
        _ => false,
    };
    let mut not_stated: Vec<String> = Vec::new();
    for asked in missing.iter().filter(|m| !is_of_missing(m)).flat_map(|m| ask(facts, m)) {
        if !not_stated.contains(&asked) {
            not_stated.push(asked);
        }
    }
    Some(Caution {
        code: &rule.id,
        severity: rule.severity,
        message: &rule.message,
        brief: &rule.brief,
        sources: rule.source_ids.iter().map(|key| key.reference().words().to_owned()).collect(),
        source_keys: &rule.source_ids,
        figures: rule.figures.iter().flat_map(|figure| figure.words(facts)).collect(),
        defer_to: &rule.defer_to,
        status: &rule.status,
        tell: rule.tell,
        said_by: rule.said_by,
        because: because(rule, facts),
        not_stated,
        only_asks: !certain && missing.iter().all(|m| is_untold_process(facts, m)),
        markets,
        carried: None,
        // What looks at nothing but what the product is made from and where it is served. One that looks at how strong,
        // sour or well kept it is speaks of it in its own bottle.
        travels: variables.iter().all(|v| v.origin() == FactOrigin::Larder || *v == Variable::Market),
    })
}

/// The tags and allergens that raise a rule, each with what it was read from where that is known.
fn because(rule: &CautionRule, facts: &Facts) -> Vec<String> {
    let asks_allergens = rule.condition.variables().contains(&Variable::Allergens);
    let allergens = asks_allergens.then_some(&facts.allergens.present).into_iter().flatten();
    let tags = rule.condition.members().into_iter().filter(|m| matches!(m, Member::Tag(tag) if facts.tags.has(*tag)));
    let mut found: Vec<String> = tags
        .chain(allergens.cloned().map(Member::Allergen))
        .map(|what| {
            let from: Vec<&str> = facts.read_from.get(&what).into_iter().flatten().map(String::as_str).collect();
            let what = what.word().replace('_', " ");
            if from.is_empty() { what } else { format!("{what} from {}", from.join(" and ")) }
        })
        .collect();
    found.sort();
    found.dedup();
    found
}

/// What has to be stated, in words: of a doubtful name that name, else what the variable means.
fn ask(facts: &Facts, missing: &Missing) -> Vec<String> {
    let of = |what: &Member| facts.questions.get(what).into_iter().flatten().cloned();
    let mut asked: Vec<String> = missing.member.iter().flat_map(of).collect();
    let mut open = asked.is_empty();
    if missing.variable == Variable::Allergens {
        asked.extend(
            facts.allergens.unsure.iter().cloned().map(Member::Allergen).flat_map(|a| of(&a).collect::<Vec<_>>()),
        );
        open = facts.allergens.open || asked.is_empty();
    }
    asked.extend(open.then(|| variables::ask(missing.variable, missing.member.as_ref())));
    asked.sort();
    asked.dedup();
    asked
}

/// Whether it is how the thing is made, and no step of the card tells that it is done so.
fn is_untold_process(facts: &Facts, missing: &Missing) -> bool {
    let told = missing.member.as_ref().is_some_and(|member| facts.questions.contains_key(member));
    missing.variable == Variable::Process && !told
}

/// The cautions of an inner card as the card around it has to show them: every one of them.
pub fn carry(name: &str, inner: &[Caution]) -> Vec<Caution> {
    carried(name, inner, false)
}

/// The same of a drink in a drink, made for the same guest: none is a matter of its own.
pub(crate) fn carry_with_it(name: &str, inner: &[Caution]) -> Vec<Caution> {
    carried(name, inner, true)
}

fn carried(name: &str, inner: &[Caution], with_it: bool) -> Vec<Caution> {
    inner
        .iter()
        .cloned()
        .map(|mut caution| {
            let on_its_own = !caution.travels && !with_it;
            let carried = caution.carried.get_or_insert_with(|| Carried { path: Vec::new(), on_its_own });
            carried.path.insert(0, name.to_owned());
            caution
        })
        .collect()
}

/// A card's own cautions with those carried out of its parts, the most serious first. Nothing is left out but
/// repetitions: one of the same card that came in by another way is one.
pub fn gather(own: Vec<Caution>, carried: impl IntoIterator<Item = Caution>) -> Vec<Caution> {
    let mut all = own;
    for caution in carried {
        if !all.iter().any(|same| same.says_as_much_as(&caution)) {
            all.push(caution);
        }
    }
    all.sort_by_key(|c| c.severity);
    all
}
