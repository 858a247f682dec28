//! Words of the state in which a thing is bought: frozen, unsweetened, clear. They change nothing of some kinds of things.

use std::collections::HashMap;
use std::sync::LazyLock;

use serde::Deserialize;

use super::{Ingredient, Larder};
use crate::mixture::Component;
use crate::spelling::{fold, words};
use crate::vocabulary::Kind;
use crate::vocabulary::table::{List, rows};

#[derive(Deserialize)]
struct StateRow {
    word: String,
    of: List<Kind>,
    least_water_pct: Option<f64>,
    most_sugar_pct: Option<f64>,
}

static STATES: LazyLock<HashMap<String, StateRow>> = LazyLock::new(|| {
    let all: Vec<StateRow> = rows("states.csv", include_str!("data/states.csv"));
    all.into_iter().map(|row| (row.word.clone(), row)).collect()
});

fn state(word: &str) -> Option<&'static StateRow> {
    STATES.get(word.to_lowercase().as_str())
}

impl StateRow {
    /// Whether it stands between two states: "fresh or frozen".
    fn joins(&self) -> bool {
        self.of.is_empty()
    }

    /// Whether it is still the same thing in that state.
    fn changes_nothing_of(&self, thing: &Ingredient) -> bool {
        const SUGARS: [Component; 3] = [Component::Sucrose, Component::Glucose, Component::Fructose];
        let percent = |of: Component| 100.0 * thing.per_gram.grams_of(of);
        let sugar: f64 = SUGARS.into_iter().map(percent).sum();
        thing.kind.is_some_and(|kind| self.of.contains(&kind))
            && self.least_water_pct.is_none_or(|least| percent(Component::Water) >= least)
            && self.most_sugar_pct.is_none_or(|most| sugar <= most)
    }
}

impl Larder {
    /// The known name in one that says besides in which state the thing was bought: "passion fruit puree" of "frozen
    /// passion fruit puree"; also where its words stand in another order. None where that may make another thing of it.
    pub(crate) fn in_its_state(&self, name: &str) -> Option<String> {
        let words = || name.split([' ', ',', '(', ')']).filter(|word| !word.is_empty());
        let (states, rest): (Vec<&str>, Vec<&str>) = words().partition(|word| state(word).is_some());
        let rest = rest.join(" ");
        if states.is_empty() {
            return self.in_another_order(&rest);
        }
        let rest = self.find(&rest).map(|_| rest.clone()).or_else(|| self.in_another_order(&rest))?;
        let thing = self.find(&rest)?;
        self.says_no_other(thing, &states).then_some(rest)
    }

    /// The name of the larder that has these words in another order: "jamaican overproof rum" of "overproof Jamaican rum". The
    /// last says what it is: milk chocolate is no chocolate milk.
    fn in_another_order(&self, name: &str) -> Option<String> {
        let sorted = |name: &str| {
            let mut all = words(name);
            let last = all.pop();
            all.sort();
            (last, all)
        };
        let own = sorted(name);
        // of two words nothing but the last could change places
        let all = if own.1.len() > 1 { self.with_all_words(&fold(name)) } else { Vec::new() };
        let mut same = all.into_iter().flat_map(Ingredient::written_names).filter(|other| sorted(other) == own);
        let first = same.next()?;
        let id = |name: &str| self.find(name).map(|known| &known.id);
        same.all(|other| id(other) == id(first)).then(|| first.to_owned())
    }

    /// Whether these words of its state leave the thing what it is.
    fn says_no_other(&self, thing: &Ingredient, states: &[&str]) -> bool {
        // "fresh or frozen": the recipe takes either, so the thing by itself is one of them
        let is_open = states.iter().any(|word| state(word).is_some_and(StateRow::joins));
        let has_another = |word: &str| {
            let mut called = thing.written_names().filter_map(|name| self.find(&format!("{word} {name}")));
            called.any(|other| other.id != thing.id)
        };
        let said = states.iter().filter(|word| state(word).is_some_and(|row| !row.joins()));
        let mut said = said.copied().peekable();
        said.peek().is_some()
            && said.all(|word| {
                state(word).is_some_and(|row| row.changes_nothing_of(thing)) && (is_open || !has_another(word))
            })
    }
}
