//! A house of texts: what its files say, wherever they lie.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::{Arc, OnceLock};

use crate::card::{self, Card, OnNoLine};
use crate::diagnostic::{Code, Diagnostic};
use crate::input;
use crate::larder::{Form, Ingredient, Larder, Origin, house_file};
use crate::spelling::{Memo, fold, words};
use crate::units::Customs;
use crate::vocabulary::{DrinkHow, IceKind, Kind};

use super::bundle::Bundle;
use super::of_book::OfBook;
use super::settings::{self, Settings};

pub(super) const HOUSE: &str = "house.toml";
pub(crate) const LARDER: &str = "larder.toml";
/// The files of a house that are no cards, and that every card of it is read with.
pub(crate) const OF_HOUSE: [&str; 2] = [HOUSE, LARDER];
const NOT_CARDS: [&str; 4] = [HOUSE, LARDER, "plan.toml", "menu.toml"];

/// The text of a file, with the name under which diagnostics speak of it.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceFile {
    /// The path as it is shown.
    pub file: Arc<str>,
    /// What is in it.
    pub text: Arc<str>,
}

/// A card of the house of which only the name has been read.
#[derive(Clone, Debug, PartialEq)]
pub struct CardText {
    /// The product's name, or the file's where the card has none.
    pub name: String,
    /// The whole card.
    pub source: SourceFile,
}

/// A house.
#[derive(Clone, Debug)]
pub struct House {
    /// What `house.toml` says, with defaults for the rest.
    pub settings: Settings,
    /// The embedded larder with the house's own over it.
    pub larder: Larder,
    /// `house.toml` and `larder.toml` as they were read, to show the line that a diagnostic speaks of.
    pub sources: Vec<SourceFile>,
    /// Whether there is no `house.toml`, so that every setting is a default.
    pub is_default: bool,
    cards: BTreeMap<String, CardText>,
    /// What there is to say of single cards, by folded name: a matter of those who use them.
    said: Vec<(String, Diagnostic)>,
    /// What the book of lots says of its products.
    pub of_book: OfBook,
    /// Cards with room, as they were chosen, by folded name: they stand in the place of their texts.
    chosen: BTreeMap<String, Card>,
    /// What it weighed of the water from ice, once somebody asked: all of its drinks are read for it.
    weighed: OnceLock<Vec<WeighedDrink>>,
    /// What steps do and no line says, by what it is read from: a card is asked for itself and for each that it goes into.
    on_no_line: Memo<Vec<OnNoLine>>,
    /// What a step heats, by its text: each pan of a card asks all of its steps.
    hot_clauses: Memo<Vec<HotClause>>,
}

/// A clause of a step that heats something, and whether it says so in degrees or by a bath, and not by its verb alone.
pub(crate) type HotClause = (String, bool);

/// A drink of the house whose water from the ice was weighed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct WeighedDrink {
    /// How it is made, and on what ice.
    pub made: (Option<DrinkHow>, Option<IceKind>),
    /// The water that it gained, over the middle of what its balance of heat gives.
    pub of_balance: f64,
}

impl Default for House {
    fn default() -> Self {
        Self {
            settings: Settings::default(),
            larder: Larder::built_in().clone(),
            sources: Vec::new(),
            is_default: true,
            cards: BTreeMap::new(),
            said: Vec::new(),
            of_book: OfBook::default(),
            chosen: BTreeMap::new(),
            weighed: OnceLock::new(),
            on_no_line: Memo::new(),
            hot_clauses: Memo::new(),
        }
    }
}

impl House {
    /// Its own files, beside its cards.
    pub(crate) fn files(&self) -> impl Iterator<Item = &str> {
        self.sources.iter().map(|source| &*source.file)
    }

    /// Has a card that was chosen from its room stand in the place of its text.
    pub(crate) fn settle_on(&mut self, card: Card) {
        self.chosen.insert(fold(&card.name.value), card);
    }

    /// The drinks of which it weighed the water from ice; `read` finds them in the cards, once.
    pub(crate) fn weighed_drinks(&self, read: impl FnOnce() -> Vec<WeighedDrink>) -> &[WeighedDrink] {
        self.weighed.get_or_init(read)
    }

    /// What the steps do and no line says, of what this says of a card; read where nobody asked it yet.
    pub(crate) fn on_no_line(&self, of: &str, read: impl FnOnce() -> Vec<OnNoLine>) -> Arc<Vec<OnNoLine>> {
        self.on_no_line.of(of, |_| read())
    }

    /// The clauses of a text that heat; read where nobody asked it yet.
    pub(crate) fn hot_clauses(&self, of: &str, read: impl FnOnce() -> Vec<HotClause>) -> Arc<Vec<HotClause>> {
        self.hot_clauses.of(of, |_| read())
    }

    /// The card of this name as it was chosen, where it has room.
    pub(crate) fn chosen(&self, name: &str) -> Option<&Card> {
        self.chosen.get(&fold(name))
    }

    /// Its `house.toml`, where it has one.
    pub(crate) fn settings_file(&self) -> Option<&SourceFile> {
        self.sources.iter().find(|source| source.file.ends_with(HOUSE))
    }

    /// A house of texts, each with the name of its file: `house.toml`, `larder.toml`, every other that ends in `.toml`
    /// a card. A board (`plan.toml`) and a menu (`menu.toml`) are passed over: [`crate::plan::board::read`] and
    /// [`crate::menu::read`] take their texts.
    ///
    /// ```
    /// let card = "name = \"House syrup\"\nmakes = \"1 L\"\n[parts]\n\"white sugar\" = \"1 kg\"\nwater = \"as needed\"\n";
    /// let (house, found) = stillroom::house::House::from_texts([
    ///     ("house.toml", "[house]\nname = \"The still\"\n"),
    ///     ("syrup.toml", card),
    /// ]);
    /// assert!(found.is_empty());
    /// assert_eq!(house.card("house syrup").map(|card| &*card.text), Some(card));
    /// ```
    pub fn from_texts<'a>(texts: impl IntoIterator<Item = (&'a str, &'a str)>) -> (Self, Vec<Diagnostic>) {
        let (mut house, mut found, mut cards) = (Self::default(), Vec::new(), Vec::new());
        for (name, text) in texts {
            let source = SourceFile { file: name.into(), text: text.into() };
            match name {
                HOUSE => house.settle(source, &mut found),
                LARDER => house.stock(source, &mut found),
                _ if is_card(Path::new(name)) => cards.push(source),
                _ => {}
            }
        }
        house.say_assumed(&mut found);
        house.keep(cards);
        (house, found)
    }

    /// How amounts are meant in this house.
    pub fn customs(&self) -> Customs {
        Customs { measures: self.settings.measures, bottle: self.settings.bottle, ..Customs::default() }
    }

    pub(super) fn settle(&mut self, source: SourceFile, found: &mut Vec<Diagnostic>) {
        self.settings = settings::read(&source.text, &source.file, found);
        self.is_default = false;
        self.sources.push(source);
    }

    pub(super) fn say_assumed(&self, found: &mut Vec<Diagnostic>) {
        if self.is_default {
            found.push(
                Diagnostic::note(Code::Assumed, format!("no {HOUSE} here or in a folder above"))
                    .help(format!("assumed: {}", self.settings.assumed().join("; "))),
            );
        }
    }

    pub(super) fn stock(&mut self, source: SourceFile, found: &mut Vec<Diagnostic>) {
        let read = house_file::by_entry(&source.text, &source.file, found);
        self.larder = std::mem::take(&mut self.larder).with_house(read);
        self.sources.push(source);
    }

    /// Takes cards by their names; of two with the same name the first is used. What a card brings that was handed over
    /// is known to the house as far as it has no such name itself.
    pub(super) fn keep(&mut self, cards: Vec<SourceFile>) {
        let mut brought = Vec::new();
        self.weighed.take();
        // `card paste … > quince.toml`: the shell has opened a file in which nothing stands yet, and it is not what the house
        // calls quince
        for source in cards.into_iter().filter(|source| !source.text.trim().is_empty()) {
            let bundle = Bundle::of(&source.text);
            let outer = bundle.as_ref().map(|bundle| bundle.outer.as_str().into());
            let source = SourceFile { text: outer.unwrap_or(source.text), file: source.file };
            let name = name_in(&source);
            let key = fold(&name);
            brought.extend(bundle.map(|bundle| (bundle, key.clone(), Arc::clone(&source.file))));
            match self.cards.get(&key) {
                Some(first) => self.said.push((
                    key,
                    Diagnostic::warning(Code::SameName, format!("two formulas have the name `{name}`"))
                        .in_file(&source.file)
                        .help(format!("{} has it too and is the one that is used: rename one", first.source.file)),
                )),
                None => {
                    self.cards.insert(key, CardText { name, source });
                }
            }
        }
        for (bundle, key, file) in brought {
            let (mut clashes, mut found) = (Vec::new(), Vec::new());
            self.bring(&bundle, &file, false, &mut clashes, &mut found);
            self.said.extend(found.into_iter().map(|said| (key.clone(), said)));
            self.said.extend(clash(&clashes, &file, false).map(|said| (key, said)));
        }
    }

    /// For a card that was handed over: what it brings goes before what the house has under the same names, and that is
    /// said. Gives the card itself.
    pub(crate) fn unbundled(&mut self, source: SourceFile, found: &mut Vec<Diagnostic>) -> SourceFile {
        let Some(bundle) = Bundle::of(&source.text) else { return source };
        let mut clashes = Vec::new();
        self.bring(&bundle, &source.file, true, &mut clashes, found);
        found.extend(clash(&clashes, &source.file, true));
        SourceFile { text: bundle.outer.into(), file: source.file }
    }

    /// Takes what a bundle brings, over what the house has or under it; gives the names that both have.
    fn bring(
        &mut self,
        bundle: &Bundle,
        file: &Arc<str>,
        over: bool,
        clashes: &mut Vec<Clash>,
        found: &mut Vec<Diagnostic>,
    ) {
        self.weighed.take();
        for text in &bundle.cards {
            let source = SourceFile { file: Arc::clone(file), text: text.as_str().into() };
            let name = name_in(&source);
            let there = self.cards.get(&fold(&name));
            let is_taken = there.is_some_and(|there| there.source.file != *file);
            clashes.extend(is_taken.then(|| (name.clone(), true)));
            if over || there.is_none() {
                self.cards.insert(fold(&name), CardText { name, source });
            }
        }
        let mut read = house_file::by_entry(&bundle.larder, file, found);
        // what the house has itself is not hidden by an entry that cannot be used
        let is_own = |larder: &Larder, name: &str| larder.find(name).is_some_and(|of| of.origin != Origin::BuiltIn);
        read.said.retain(|entry| over || !is_own(&self.larder, &entry.name));
        read.ingredients.retain(|entry| match self.larder.find(&entry.name) {
            Some(there) if there.origin.file() != Some(file) => {
                let is_own = there.origin != Origin::BuiltIn;
                clashes.extend((is_own || !over).then(|| (entry.name.clone(), is_own)));
                over
            }
            _ => true,
        });
        self.larder = std::mem::take(&mut self.larder).with_more(read);
        self.sources.push(SourceFile { file: Arc::clone(file), text: bundle.larder.as_str().into() });
    }

    /// Takes down what there is to say of a name to whoever uses it.
    pub(crate) fn say_of(&mut self, name: &str, diagnostic: Diagnostic) {
        self.said.push((fold(name), diagnostic));
    }

    /// The text of the card with this name; `None` when the house has none of it.
    pub fn card(&self, name: &str) -> Option<&SourceFile> {
        self.cards.get(&fold(name)).map(|card| &card.source)
    }

    /// The card of this name as it is read, whatever is found in it; `None` where there is none, or nothing of it can be read.
    pub(crate) fn read_card(&self, name: &str) -> Option<Card> {
        let source = self.card(name)?.clone();
        card::read_by(source.file, source.text, &self.customs()).0
    }

    /// The name of a card as it is written there.
    pub(crate) fn name_of_card(&self, name: &str) -> Option<&str> {
        self.cards.get(&fold(name)).map(|card| card.name.as_str())
    }

    /// The leaves of a tea, or ground coffee, where the larder has the name alone for the brew of it: `earl grey`.
    pub(crate) fn leaves_of(&self, name: &str) -> Option<String> {
        let find = |name: &str| self.card(name).is_none().then(|| self.larder.find(name)).flatten();
        let is_brew = |i: &Ingredient| i.form == Form::Liquid && matches!(i.kind, Some(Kind::Tea | Kind::Coffee));
        let brew = find(name).filter(|named| is_brew(named))?;
        let is_dry = |name: &String| find(name).is_some_and(|i| i.form == Form::Solid);
        // by the name that stands there, or by another of the same drink: `thé`
        let names = std::iter::once(name).chain(brew.written_names()).map(|name| words(name).join(" "));
        names.flat_map(|name| [format!("{name} leaf"), format!("ground {name}")]).find(is_dry)
    }

    /// What there is to say of the card or the ingredient of this name, beside what its own text says.
    pub fn said_of(&self, name: &str) -> impl Iterator<Item = &Diagnostic> {
        let key = fold(name);
        let of_cards = self.said.iter().filter(move |(of, _)| *of == key).map(|(_, d)| d);
        of_cards.chain(self.larder.said_of(name))
    }

    /// What there is to say of all of them.
    pub fn said(&self) -> impl Iterator<Item = &Diagnostic> {
        self.said.iter().map(|(_, d)| d).chain(self.larder.said())
    }

    /// The cards, by name.
    pub fn cards(&self) -> impl Iterator<Item = &CardText> + Clone {
        self.cards.values()
    }
}

/// A name that a bundle and this house have, and whether the house's own files say so: else it is built in.
type Clash = (String, bool);

/// That a card which was handed over and the house use the same names for things of their own.
fn clash(names: &[Clash], file: &Arc<str>, over: bool) -> Option<Diagnostic> {
    names.first()?;
    let all = names.iter().map(|(name, _)| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    let title = format!("{all}: the card was handed over with its own, and that name is known here too");
    let help = match over {
        true => "in this card its own counts; everywhere else that of the house",
        false => {
            "where another card uses this one, that of the house counts; opened by itself, it is made with its own"
        }
    };
    let said = match names.iter().any(|(_, is_own)| *is_own) {
        true => Diagnostic::warning(Code::BundleWins, title),
        false => Diagnostic::note(Code::BundleWins, title),
    };
    Some(said.help(help).in_file(file))
}

pub(super) fn is_card(path: &Path) -> bool {
    let is = |name: &str| path.file_name().is_some_and(|n| n == name);
    path.extension().is_some_and(|e| e == "toml") && !NOT_CARDS.into_iter().any(is)
}

pub(super) fn stem(path: &Path) -> String {
    path.file_stem().unwrap_or_default().to_string_lossy().into_owned()
}

/// The `name` of a card. It stands above the first heading, so only that much is read.
fn name_in(card: &SourceFile) -> String {
    let head = match card.text.starts_with('[') {
        true => "",
        false => card.text.find("\n[").and_then(|end| card.text.get(..end)).unwrap_or(&card.text),
    };
    let table = input::parse(head, &mut Vec::new());
    let name = table.get("name").and_then(|(_, name)| name.value.text());
    name.map_or_else(|| stem(Path::new(&*card.file)), str::to_owned)
}
