//! `check`: everything that is found in cards.

use std::borrow::Cow;
use std::collections::HashMap;
use std::collections::hash_map::Entry;

use serde::Serialize;

use crate::aim;
use crate::assessment::{self, IdentityQuestion, by_name};
use crate::card::{self, Card};
use crate::cost::faults_of_prices;
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::{House, SourceFile, is_bundle};
use crate::menu;
use crate::paste::held_to_steps;
use crate::plan;
use crate::plan::kitchen::card_named;
use crate::safety::{Caution, Level};
use crate::solver::{Options, solve};

use super::solve::law;
use super::{Report, View};

pub(crate) type CheckReport = Report<CheckView>;

/// What was looked through; what was found stands among the findings.
#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct CheckView {
    pub(crate) files: usize,
}

impl View for CheckView {
    const VERB: &'static str = "check";
    const KEYS: &'static str = "files";
    const TELLS_NOTES: bool = false;
}

/// What is found in one card: as it is read and solved, in the class that it claims, and every stop, caution, open question
/// and refusal in the store that it is planned for.
pub(crate) fn check_card(source: SourceFile, house: &House) -> Vec<Diagnostic> {
    let (mut source, mut house, mut found) = (source, Cow::Borrowed(house), Vec::new());
    if is_bundle(&source.text) {
        source = house.to_mut().unbundled(source, &mut found);
    }
    let house = house.as_ref();
    let (card, of_card) = card::read_by(source.file, source.text, &house.customs());
    found.extend(of_card);
    let Some(card) = card else { return found };
    if any_error(&found) {
        found.extend(aim::faults(&card, house));
        found.extend(by_name::stops(&card, house));
        return found;
    }
    let Some(made) = aim::chosen(&card, house, &Options::default(), &mut found) else { return found };
    let (card, house) = (made.card.as_ref(), made.house.as_ref());
    let Some(solved) = solve(card, house, &Options::default()).told(&mut found) else {
        found.extend(by_name::stops(card, house));
        return found;
    };
    found.extend(law::of_class(card, &solved));
    found.extend(held_to_steps(card, &solved, house));
    let (judged, of_judgement) = assessment::undated(&solved, house);
    let at = |diagnostic: Diagnostic| diagnostic.in_file(&card.file);
    let told = judged.cautions.iter().filter(|c| c.stops() || !c.is_said_elsewhere());
    found.extend(of_all_levels(told).iter().map(|c| at(caution(c, card))));
    found.extend(judged.unidentified.iter().map(IdentityQuestion::diagnostic));
    let name = &card.name.value;
    if !judged.allergens_open.is_empty() || !judged.allergens_doubted.is_empty() {
        let title = format!("{name}: allergens: {}", judged.allergens_say);
        // those of what nobody has identified count as little as anything else that is written of it
        let is_unidentified = |of: &String| judged.unidentified.iter().any(|question| question.name == *of);
        let open = judged.allergens_open.iter().chain(&judged.allergens_doubted);
        let help = match open.into_iter().all(is_unidentified) {
            true => "say first what it is, as asked above: the `allergens` that are written of it count then",
            false => "ask the maker, and write `allergens` into larder.toml",
        };
        found.push(at(Diagnostic::warning(Code::NotStated, title).help(help)));
    }
    // A drink is served at once: that it has no date need not be mended.
    let is_dated = judged.unidentified.is_empty() && !judged.stopped() && !card.is_drink();
    if let Some(store) = judged.stores.get(judged.planned).filter(|_| is_dated) {
        found.extend(store.refused.iter().map(|why| {
            at(Diagnostic::warning(Code::NoDate, format!("{name}: no date in the {}: {why}", store.store.name)))
        }));
    }
    found.extend(of_judgement);
    found
}

/// What is wrong with the house's own files, beside what they are read with: its prices, its board and its menu.
pub(crate) fn check_house(house: &House, board: Option<&SourceFile>, menu: Option<&SourceFile>) -> Vec<Diagnostic> {
    let mut found = faults_of_prices(house);
    if let Some(SourceFile { text, file }) = board {
        let mut own = Vec::new();
        let board = plan::board::read(text, file, &house.customs(), &mut own);
        for product in &board.products {
            card_named(&product.name, house, "write the name as on its card", &mut own);
        }
        found.extend(own.into_iter().map(|d| d.in_file(file)));
    }
    if let Some(SourceFile { text, file }) = menu {
        let mut own = Vec::new();
        let menu = menu::read(text, file, &mut own);
        for drink in &menu.drinks {
            card_named(&drink.name, house, "write the name as on its card", &mut own);
        }
        found.extend(own.into_iter().map(|d| d.in_file(file)));
    }
    found
}

/// What brings allergens is said once for a card and everything in it, with all that brings them.
fn of_all_levels<'a>(cautions: impl Iterator<Item = &'a Caution>) -> Vec<Caution> {
    let mut told: Vec<Caution> = Vec::new();
    for caution in cautions {
        let is_same = |known: &&mut Caution| known.code == caution.code && known.not_stated == caution.not_stated;
        match told.iter_mut().find(is_same).filter(|_| caution.is_of_its_allergens()) {
            Some(known) => {
                known.carried = None;
                let more = caution.because.iter().filter(|because| !known.because.contains(because));
                let more: Vec<String> = more.cloned().collect();
                known.because.extend(more);
            }
            None => told.push(caution.clone()),
        }
    }
    told
}

fn caution(caution: &Caution, card: &Card) -> Diagnostic {
    if caution.stops() {
        return Diagnostic::error(Code::Stop, caution.to_string())
            .at(card.name.span, "not to be made or served as planned")
            .help(format!("see stillroom date with this card; ask: {}", caution.defer_to));
    }
    let title = format!("{}: {caution}", card.name.value);
    match (caution.severity, caution.is_certain()) {
        (Level::Note, _) => Diagnostic::note(Code::Caution, title),
        (_, true) => Diagnostic::warning(Code::Caution, title),
        (_, false) => Diagnostic::warning(Code::NotStated, title),
    }
}

/// A card that another one needs is checked with both, and a card that cannot be read is met twice: each finding is said
/// once, in its graver form.
pub(crate) fn each_once(found: impl IntoIterator<Item = Diagnostic>) -> Vec<Diagnostic> {
    let mut once: Vec<Diagnostic> = Vec::new();
    let mut places = HashMap::new();
    for d in found {
        let key = (d.code, d.file.clone(), d.labels.first().map(|l| l.span.start), d.title.clone());
        match places.entry(key) {
            Entry::Vacant(free) => {
                free.insert(once.len());
                once.push(d);
            }
            Entry::Occupied(place) => {
                if let Some(first) = once.get_mut(*place.get()) {
                    first.severity = first.severity.max(d.severity);
                }
            }
        }
    }
    once
}
