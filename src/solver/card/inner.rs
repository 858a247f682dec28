//! Cards of the house inside a card: each is made once and shared.

use std::sync::Arc;

use crate::card::{self, Card, Makes};
use crate::diagnostic::any_error;
use crate::house::SourceFile;
use crate::spelling::fold;
use crate::units::grams;

use super::super::error::{DEEPEST, PartError};
use super::super::resolve::{FoundPart, Material};
use super::super::{InnerCard, Solved};
use super::cook::Cook;
use super::options::{BatchSize, Options};

impl Cook<'_> {
    /// Another card of the house. `None`: there is none of that name; an error of `None`: there is, it cannot be made,
    /// and that has been said.
    pub(super) fn inner_card(
        &mut self,
        name: &str,
        solved: &mut Solved,
    ) -> Option<Result<FoundPart, Option<PartError>>> {
        let file = self.house.card(name)?.clone();
        Some(self.made_once(name, file).map(|inner| {
            let known = solved.inner.iter().position(|own| own.card.index == inner.index);
            let place = known.unwrap_or(solved.inner.len());
            let found = FoundPart::liquid(Material::Card(place), inner.bottled());
            if known.is_none() {
                solved.inner.push(InnerCard { card: inner, grams: 0.0 });
            }
            found
        }))
    }

    fn made_once(&mut self, name: &str, file: SourceFile) -> Result<Arc<Solved>, Option<PartError>> {
        let key = fold(name);
        if let Some(start) = self.making.iter().position(|own| fold(own) == key) {
            let names = self.making[start..].iter().cloned().chain([name.to_owned()]);
            return Err(Some(PartError::Cycle(names.collect())));
        }
        if self.making.len() > DEEPEST {
            return Err(Some(PartError::TooDeep));
        }
        if let Some(made) = self.made.get(&key) {
            return made.clone().ok_or(None);
        }
        self.making.push(name.to_owned());
        let inner = self.make_inner(file);
        self.making.pop();
        self.made.insert(key, inner.as_ref().ok().cloned());
        inner
    }

    fn make_inner(&mut self, file: SourceFile) -> Result<Arc<Solved>, Option<PartError>> {
        let (found_before, errors_before) = (self.found.len(), self.errors.len());
        let (card, mut found) = card::read(file.file, file.text);
        let readable = !any_error(&found);
        self.found.append(&mut found);
        let solved = card.filter(|_| readable).and_then(|card| self.inner_solved(&card));
        match solved.filter(|_| !any_error(&self.found[found_before..])) {
            Some(solved) => Ok(Arc::new(solved)),
            // A cycle, or a chain without an end, says all of it at once.
            None if self.errors[errors_before..].iter().any(|(_, error)| error.is_of_the_chain()) => Err(None),
            None => Err(Some(PartError::InnerCard)),
        }
    }

    fn inner_solved(&mut self, card: &Card) -> Option<Solved> {
        let start = self.found.len();
        // What goes in is weighed for the outer card: any size of a card that states none will do.
        let size = card.makes.is_none().then(|| BatchSize::Makes(Makes::Mass(grams(1000.0))));
        let solved = self.card(card, &Options { size, ..Options::default() });
        for diagnostic in &mut self.found[start..] {
            *diagnostic = diagnostic.clone().in_file(&card.file);
        }
        solved
    }
}
