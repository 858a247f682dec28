//! Reads a trigger: `ph + ph_u > 4.6 and "sealed" in process and not pasteurised`.
//!
//! ```text
//! condition  = all { "or" all }            all  = one { "and" one }
//! one        = "not" one | "(" condition ")" | test
//! test       = flag | word ("==" | "!=") string | string ["not"] "in" set
//!            | number-variable "is" ["not"] "None" | sum ("<" | "<=" | "==" | "!=" | ">=" | ">") sum
//! sum        = product { ("+" | "-") product }        product = atom { "*" atom }
//! atom       = literal | number-variable | "len" "(" set ")" | "(" sum ")"
//! ```
//! Names and words are read here as the words of closed lists, so that an answer can never hang on a misspelling.

use std::fmt;

use crate::vocabulary::{Allergen, Market, Open, Process, Tag, Word};

use super::super::facts::{Member, Quantity, Storage, Tcs};
use super::super::variables::Variable;
use super::{Choice, Condition, CountedSet, NumberTerm, Relation};

/// How deep brackets may stand in each other.
const DEEPEST: usize = 64;
/// How many words and signs a trigger may have: a bound on how deep a sum can grow.
const LONGEST: usize = 1000;

/// Why a text is not a trigger.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TriggerError {
    /// The byte at which reading stopped.
    pub at: usize,
    pub expected: String,
}

impl fmt::Display for TriggerError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "at byte {}: {} was expected", self.at, self.expected)
    }
}

impl std::error::Error for TriggerError {}

#[derive(Clone, Debug, PartialEq)]
enum Token<'a> {
    Name(&'a str),
    Text(&'a str),
    Literal(f64),
    Sign(&'static str),
}

const SIGNS: [&str; 11] = ["<=", ">=", "==", "!=", "<", ">", "+", "-", "*", "(", ")"];

fn tokens(text: &str) -> Result<Vec<(usize, Token<'_>)>, TriggerError> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(rest) = text.get(at..).filter(|r| !r.is_empty()) {
        let run = |keep: fn(char) -> bool| rest.find(|c| !keep(c)).unwrap_or(rest.len());
        let first = rest.chars().next().unwrap_or(' ');
        let stop = |expected: &str| TriggerError { at, expected: expected.to_owned() };
        let (length, token) = if first.is_whitespace() {
            at += first.len_utf8();
            continue;
        } else if let Some(sign) = SIGNS.into_iter().find(|s| rest.starts_with(s)) {
            (sign.len(), Token::Sign(sign))
        } else if first == '"' {
            let inside = rest.get(1..).and_then(|r| r.split_once('"')).ok_or_else(|| stop("a closing quote"))?.0;
            (inside.len() + 2, Token::Text(inside))
        } else if first.is_ascii_digit() {
            let length = run(|c| c.is_ascii_digit() || c == '.');
            let value = rest.get(..length).and_then(|r| r.parse().ok()).ok_or_else(|| stop("a decimal number"))?;
            (length, Token::Literal(value))
        } else if first.is_ascii_alphabetic() {
            let length = run(|c| c.is_ascii_alphanumeric() || c == '_');
            (length, Token::Name(rest.get(..length).unwrap_or(rest)))
        } else {
            return Err(stop("a name, a number, a text in quotes or a sign"));
        };
        if found.len() >= LONGEST {
            return Err(stop("a shorter trigger"));
        }
        found.push((at, token));
        at += length;
    }
    Ok(found)
}

struct TriggerReader<'a> {
    tokens: Vec<(usize, Token<'a>)>,
    next: usize,
    end: usize,
    depth: usize,
}

type Parsed<T> = Result<T, TriggerError>;

/// Reads a condition as the table of cautions writes it.
pub fn parse(text: &str) -> Parsed<Condition> {
    let mut reader = TriggerReader { tokens: tokens(text)?, next: 0, end: text.len(), depth: 0 };
    let condition = reader.condition()?;
    if reader.next < reader.tokens.len() { Err(reader.expected("the end")) } else { Ok(condition) }
}

impl<'a> TriggerReader<'a> {
    fn peek(&self) -> Option<&Token<'a>> {
        self.tokens.get(self.next).map(|(_, token)| token)
    }

    fn expected(&self, what: impl Into<String>) -> TriggerError {
        TriggerError { at: self.tokens.get(self.next).map_or(self.end, |(at, _)| *at), expected: what.into() }
    }

    fn take(&mut self, token: &Token<'_>) -> bool {
        let there = self.peek() == Some(token);
        self.next += usize::from(there);
        there
    }

    fn name(&mut self, name: &str) -> bool {
        self.take(&Token::Name(name))
    }

    fn sign(&mut self, sign: &'static str) -> bool {
        self.take(&Token::Sign(sign))
    }

    fn need_sign(&mut self, sign: &'static str) -> Parsed<()> {
        if self.sign(sign) { Ok(()) } else { Err(self.expected(format!("`{sign}`"))) }
    }

    fn any_sign(&mut self, signs: &[&'static str]) -> Option<&'static str> {
        signs.iter().copied().find(|s| self.sign(s))
    }

    fn text(&mut self) -> Option<&'a str> {
        let Some(&Token::Text(text)) = self.peek() else { return None };
        self.next += 1;
        Some(text)
    }

    fn deeper<T>(&mut self, read: impl FnOnce(&mut Self) -> Parsed<T>) -> Parsed<T> {
        if self.depth >= DEEPEST {
            return Err(self.expected("fewer brackets"));
        }
        self.depth += 1;
        let result = read(self);
        self.depth -= 1;
        result
    }

    /// The variable whose name comes next, if it is one that is wanted here.
    fn variable<T>(&mut self, wanted: impl Fn(Variable) -> Option<T>) -> Option<T> {
        let Some(Token::Name(name)) = self.peek() else { return None };
        let wanted = Variable::from_name(name).and_then(wanted)?;
        self.next += 1;
        Some(wanted)
    }

    fn quantity(&mut self) -> Option<Quantity> {
        self.variable(|variable| match variable {
            Variable::Quantity(quantity) => Some(quantity),
            _ => None,
        })
    }

    fn counted(&mut self) -> Parsed<CountedSet> {
        let set = self.variable(|variable| match variable {
            Variable::Tags => Some(CountedSet::Tags),
            Variable::Allergens => Some(CountedSet::Allergens),
            Variable::Process => Some(CountedSet::Process),
            _ => None,
        });
        set.ok_or_else(|| self.expected("tags, allergens or process"))
    }

    fn condition(&mut self) -> Parsed<Condition> {
        self.joined("or", Self::all, Condition::Or)
    }

    fn all(&mut self) -> Parsed<Condition> {
        self.joined("and", Self::one, Condition::And)
    }

    fn joined(
        &mut self,
        word: &str,
        part: fn(&mut Self) -> Parsed<Condition>,
        join: fn(Vec<Condition>) -> Condition,
    ) -> Parsed<Condition> {
        let first = part(self)?;
        if !self.name(word) {
            return Ok(first);
        }
        let mut parts = vec![first, part(self)?];
        while self.name(word) {
            parts.push(part(self)?);
        }
        Ok(join(parts))
    }

    fn one(&mut self) -> Parsed<Condition> {
        if self.name("not") {
            return Ok(Condition::Not(Box::new(self.deeper(Self::one)?)));
        }
        // A bracket may hold a condition or begin a sum: try the first, go back for the second.
        let start = self.next;
        if self.sign("(") {
            let inside = self.deeper(Self::condition).and_then(|c| self.need_sign(")").map(|()| c));
            let goes_on = matches!(self.peek(), Some(Token::Sign(sign)) if *sign != ")");
            if inside.is_ok() && !goes_on {
                return inside;
            }
            self.next = start;
            return match (self.test(), inside) {
                // of two errors, the one that came further
                (Err(as_sum), Err(as_condition)) if as_condition.at > as_sum.at => Err(as_condition),
                (test, _) => test,
            };
        }
        self.test()
    }

    fn test(&mut self) -> Parsed<Condition> {
        let flag = |variable| match variable {
            Variable::Flag(flag) => Some(flag),
            _ => None,
        };
        if let Some(flag) = self.variable(flag) {
            return Ok(Condition::Flag(flag));
        }
        let word = |v| matches!(v, Variable::Tcs | Variable::TcsWithoutAcid | Variable::Storage).then_some(v);
        if let Some(variable) = self.variable(word) {
            return self.word_is(variable);
        }
        let start = self.next;
        if let Some(tag) = self.text() {
            return self.holds(tag, start);
        }
        if let Some(variable) = self.quantity() {
            if self.name("is") {
                let not = self.name("not");
                let test = Condition::IsNone(variable);
                return if self.name("None") { Ok(negated(not, test)) } else { Err(self.expected("`None`")) };
            }
            self.next = start;
        }
        let left = self.sum()?;
        let sign = self.any_sign(&["<=", ">=", "==", "!=", "<", ">"]).ok_or_else(|| self.expected("a comparison"))?;
        let right = self.sum()?;
        Ok(match sign {
            "<" => Condition::Compare(left, Relation::Less, right),
            "<=" => Condition::Compare(left, Relation::LessOrEqual, right),
            ">" => Condition::Compare(right, Relation::Less, left),
            ">=" => Condition::Compare(right, Relation::LessOrEqual, left),
            sign => negated(sign == "!=", Condition::Compare(left, Relation::Equal, right)),
        })
    }

    fn word_is(&mut self, variable: Variable) -> Parsed<Condition> {
        let sign = self.any_sign(&["==", "!="]).ok_or_else(|| self.expected("`==` or `!=`"))?;
        let choice = match variable {
            Variable::Tcs => Choice::Tcs(self.one_of()?),
            Variable::TcsWithoutAcid => Choice::TcsWithoutAcid(self.one_of::<Tcs>()?),
            _ => Choice::Storage(self.one_of::<Storage>()?),
        };
        Ok(negated(sign == "!=", Condition::Is(choice)))
    }

    /// The word in quotes that comes next, exactly as its list has it.
    fn one_of<T: Word>(&mut self) -> Parsed<T> {
        let word = match self.peek() {
            Some(Token::Text(text)) => exactly::<T>(text),
            _ => None,
        };
        let words = || T::words().collect::<Vec<_>>().join("\", \"");
        let word = word.ok_or_else(|| self.expected(format!("one of \"{}\"", words())))?;
        self.next += 1;
        Ok(word)
    }

    fn holds(&mut self, text: &str, start: usize) -> Parsed<Condition> {
        let not = self.name("not");
        if !self.name("in") {
            return Err(self.expected("`in` or `not in`"));
        }
        let set = |v: Variable| {
            matches!(v, Variable::Tags | Variable::Allergens | Variable::Process | Variable::Market).then_some(v)
        };
        let set = self.variable(set).ok_or_else(|| self.expected("tags, allergens, process or market"))?;
        let member = match set {
            Variable::Tags => exactly::<Tag>(text).map(Member::Tag),
            Variable::Allergens => exactly::<Allergen>(text).map(|allergen| Member::Allergen(Open::Known(allergen))),
            Variable::Process => exactly::<Process>(text).map(Member::Process),
            _ => exactly::<Market>(text).map(Member::Market),
        };
        let Some(member) = member else {
            self.next = start;
            return Err(self.expected(format!("a word that {} can hold", set.name())));
        };
        Ok(negated(not, Condition::Holds(member)))
    }

    fn sum(&mut self) -> Parsed<NumberTerm> {
        let mut sum = self.product()?;
        while let Some(sign) = self.any_sign(&["+", "-"]) {
            let (left, right) = (Box::new(sum), Box::new(self.product()?));
            sum = if sign == "+" { NumberTerm::Sum(left, right) } else { NumberTerm::Difference(left, right) };
        }
        Ok(sum)
    }

    fn product(&mut self) -> Parsed<NumberTerm> {
        let mut product = self.atom()?;
        while self.sign("*") {
            product = NumberTerm::Product(Box::new(product), Box::new(self.atom()?));
        }
        Ok(product)
    }

    fn atom(&mut self) -> Parsed<NumberTerm> {
        if let Some(&Token::Literal(value)) = self.peek() {
            self.next += 1;
            return Ok(NumberTerm::Constant(value));
        }
        if let Some(quantity) = self.quantity() {
            return Ok(NumberTerm::Fact(quantity));
        }
        if self.name("len") {
            self.need_sign("(")?;
            let count = NumberTerm::Count(self.counted()?);
            self.need_sign(")")?;
            return Ok(count);
        }
        if self.sign("(") {
            let sum = self.deeper(Self::sum)?;
            self.need_sign(")")?;
            return Ok(sum);
        }
        Err(self.expected("a number or the name of a fact"))
    }
}

/// The word of a list, as the list has it and in no other spelling.
fn exactly<T: Word>(text: &str) -> Option<T> {
    T::ALL.iter().copied().find(|word| word.word() == text)
}

fn negated(not: bool, test: Condition) -> Condition {
    if not { Condition::Not(Box::new(test)) } else { test }
}
