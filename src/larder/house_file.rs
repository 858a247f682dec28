//! A house's own `larder.toml`: ingredients by analysis, by label, or like another one.

use std::collections::HashMap;
use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic, Span, Spanned, any_error};
use crate::input::{self, FileReader, Table, Value, wrong_type};
use crate::mixture::Component;
use crate::spelling::{fold, nearest_name};

use super::{Ingredient, Larder, TRACE_OF_ALCOHOL, entry, written};

#[derive(Debug, Default)]
pub(crate) struct Read {
    /// The ingredients, in the order of the file.
    pub ingredients: Vec<Ingredient>,
    /// What there is to say of single entries, by their name. One of which an error is said is no ingredient.
    pub said: Vec<Said>,
}

#[derive(Clone, Debug)]
pub(crate) struct Said {
    pub name: String,
    pub found: Vec<Diagnostic>,
}

impl Said {
    pub(crate) fn is_broken(&self) -> bool {
        any_error(&self.found)
    }
}

/// The ingredients of a larder file, in its order. What is wrong is reported, and what it makes
/// uncertain is left out. The text is never larger than what one can write by hand; any text is fine.
pub fn read(text: &str, file: &Arc<str>, found: &mut Vec<Diagnostic>) -> Vec<Ingredient> {
    let Read { ingredients, said } = by_entry(text, file, found);
    for diagnostic in said.into_iter().flat_map(|entry| entry.found) {
        if !found.contains(&diagnostic) {
            found.push(diagnostic);
        }
    }
    ingredients
}

/// The same; what is wrong with one entry is no matter of the others, and is kept with its name.
pub(crate) fn by_entry(text: &str, file: &Arc<str>, found: &mut Vec<Diagnostic>) -> Read {
    let first = found.len();
    let table = input::parse(text, found);
    let mut reader = FileReader::new(text, written::HINTS, std::mem::take(found));
    let table = written::FILE.read(&table, &mut reader);
    *found = reader.found;
    let mut said = Vec::new();
    let entries = entries(&table, &mut said);
    // what the reader of the text finds in a name
    for (name, _) in &entries {
        let of_name = |d: &mut Diagnostic| d.labels.first().is_some_and(|label| label.span == name.span);
        let found = found.extract_if(first.., of_name).collect::<Vec<_>>();
        said.extend((!found.is_empty()).then(|| Said { name: name.value.clone(), found }));
    }
    let by_name = by_name(&entries, &mut said);
    let none = || entries.iter().map(|_| None).collect();
    let mut reading = LarderReading {
        text,
        file,
        by_name,
        done: none(),
        deep: vec![0; entries.len()],
        said: vec![Vec::new(); entries.len()],
        entries: &entries,
    };
    for i in 0..entries.len() {
        reading.resolve(i);
    }
    let of_entries =
        entries.iter().zip(reading.said).map(|((name, _), found)| Said { name: name.value.clone(), found });
    said.extend(of_entries.filter(|entry| !entry.found.is_empty()));
    let all = found.iter_mut().skip(first).chain(said.iter_mut().flat_map(|entry| &mut entry.found));
    for diagnostic in all {
        diagnostic.file.get_or_insert_with(|| Arc::clone(file));
    }
    let ingredients = reading.done.into_iter().flatten().flatten().map(shadowing).collect();
    Read { ingredients, said }
}

type LarderEntry<'a> = (&'a Spanned<String>, &'a Table);

fn entries<'a>(table: &'a Table, said: &mut Vec<Said>) -> Vec<LarderEntry<'a>> {
    let mut entries = Vec::new();
    for (name, value) in &table.entries {
        match &value.value {
            Value::Table(table) => entries.push((name, table)),
            _ => said.push(Said {
                name: name.value.clone(),
                found: vec![
                    wrong_type(&name.value, value, "a table")
                        .help(format!("begin it with [ingredient.\"{}\"], its keys below", name.value)),
                ],
            }),
        }
    }
    entries
}

/// Folded names and the entries that they mean.
fn by_name(entries: &[LarderEntry<'_>], said: &mut Vec<Said>) -> HashMap<String, usize> {
    let mut by_name = HashMap::new();
    for (i, (name, _)) in entries.iter().enumerate() {
        if let Some(first) = by_name.insert(fold(&name.value), i).and_then(|first| entries.get(first)) {
            let same = Diagnostic::error(
                Code::SameName,
                format!("`{}` and `{}` are the same name", first.0.value, name.value),
            )
            .at(name.span, "again here")
            .at(first.0.span, "first here")
            .help("capitals, hyphens and plurals do not tell names apart: rename one");
            said.push(Said { name: name.value.clone(), found: vec![same] });
        }
    }
    by_name
}

struct LarderReading<'a> {
    text: &'a str,
    file: &'a Arc<str>,
    entries: &'a [LarderEntry<'a>],
    by_name: HashMap<String, usize>,
    /// What became of each entry: not reached yet, or done with an ingredient or without.
    done: Vec<Option<Option<Ingredient>>>,
    /// How many others stand behind it, each like the next.
    deep: Vec<usize>,
    said: Vec<Vec<Diagnostic>>,
}

/// So many entries that are like the next one at the most: a larder has no more than a few (ours).
const MOST_LIKE: usize = 50;

enum Like {
    Nothing,
    Entry(usize),
    BuiltIn(&'static Ingredient),
    Unknown,
}

/// What the embedded larder has under the very name of an entry that prices it, or says of what has alcohol how strong the bottle
/// is: that is no other thing, and has its sugar and its acid.
fn itself(name: &str, table: &Table) -> Like {
    let says = |key: &&str| table.get(key).is_some();
    let says_more = ["per_100g", "brix", "sugar", "acid"].iter().any(says);
    let is_strong = |known: &&Ingredient| known.per_gram.grams_of(Component::Ethanol) > TRACE_OF_ALCOHOL;
    let known = Larder::built_in().find(name).filter(|known| !says(&"abv") || is_strong(known));
    known.filter(|_| !says_more).map_or(Like::Nothing, Like::BuiltIn)
}

impl LarderReading<'_> {
    /// Follows `like` to its end, then makes the ingredients from there back.
    fn resolve(&mut self, start: usize) {
        let (mut chain, mut place) = (vec![start], HashMap::from([(start, 0)]));
        while let Some(&last) = chain.last() {
            match self.like(last, &mut Vec::new()) {
                _ if self.done.get(last).is_none_or(Option::is_some) => break,
                Like::Entry(next) => {
                    if let Some(&at) = place.get(&next) {
                        self.cycle(chain.get(at..).unwrap_or_default());
                        break;
                    }
                    place.insert(next, chain.len());
                    chain.push(next);
                }
                _ => break,
            }
        }
        for &i in chain.iter().rev() {
            if self.done.get(i).is_some_and(Option::is_none) {
                let mut found = Vec::new();
                let ingredient = self.make(i, &mut found).filter(|_| self.is_near_its_end(i, &mut found));
                if let (Some(done), Some(said)) = (self.done.get_mut(i), self.said.get_mut(i)) {
                    *done = Some(ingredient);
                    said.append(&mut found);
                }
            }
        }
    }

    /// Whether what it is like is known after a few steps: names and dangers of all of them are its own.
    fn is_near_its_end(&mut self, i: usize, found: &mut Vec<Diagnostic>) -> bool {
        let Like::Entry(other) = self.like(i, &mut Vec::new()) else { return true };
        let deep = self.deep.get(other).map_or(0, |deep| deep + 1);
        if let Some(own) = self.deep.get_mut(i) {
            *own = deep;
        }
        let is_near = deep <= MOST_LIKE;
        if let Some((name, _)) = self.entries.get(i).filter(|_| !is_near) {
            let title = format!("`{}` is like another by more than {MOST_LIKE} entries", name.value);
            found.push(
                Diagnostic::error(Code::TooLarge, title)
                    .at(name.span, "how far does that go?")
                    .help("say at once what it is like in the end, or what it is made of: `per_100g`, `abv` or `brix`"),
            );
        }
        is_near
    }

    fn like(&self, i: usize, found: &mut Vec<Diagnostic>) -> Like {
        let Some((name, table)) = self.entries.get(i) else { return Like::Nothing };
        let Some((key, value)) = table.get("like") else { return itself(&name.value, table) };
        let Some(like) = value.value.text() else {
            found.push(wrong_type(&key.value, value, "a text in quotes"));
            return Like::Unknown;
        };
        let folded = fold(like);
        // An entry that takes the place of an embedded ingredient may be like that one.
        match self.by_name.get(&folded).filter(|_| folded != fold(&name.value)) {
            Some(&other) => Like::Entry(other),
            None => match Larder::built_in().find(like) {
                Some(built_in) => Like::BuiltIn(built_in),
                None => {
                    found.push(self.unknown(like, value.span));
                    Like::Unknown
                }
            },
        }
    }

    fn unknown(&self, like: &str, at: Span) -> Diagnostic {
        let own = nearest_name(like, self.entries.iter().map(|(name, _)| name.value.as_str()));
        let diagnostic =
            Diagnostic::error(Code::UnknownLike, format!("`{like}` is not in the larder")).at(at, "like what?");
        match own.map(str::to_owned).or_else(|| Larder::built_in().suggest(like)) {
            Some(meant) => diagnostic.help(format!("did you mean `{meant}`?")).fix(at, format!("\"{meant}\"")),
            None => diagnostic.help("`like` takes the name of an embedded ingredient or of another one of this file"),
        }
    }

    fn cycle(&mut self, cycle: &[usize]) {
        let named: Vec<_> = cycle.iter().filter_map(|&i| self.entries.get(i)).collect();
        let names: Vec<_> = named.iter().chain(named.first()).map(|(name, _)| name.value.as_str()).collect();
        let mut diagnostic =
            Diagnostic::error(Code::LikeCycle, format!("`like` runs in a ring: {}", names.join(" -> ")));
        for (_, table) in &named {
            if let Some((_, like)) = table.get("like") {
                diagnostic = diagnostic.at(like.span, "part of the ring");
            }
        }
        let diagnostic = diagnostic.help("one of them must say what it is made of: `per_100g`, `abv` or `brix`");
        for &i in cycle {
            if let (Some(done), Some(said)) = (self.done.get_mut(i), self.said.get_mut(i)) {
                *done = Some(None);
                said.push(diagnostic.clone());
            }
        }
    }

    fn make(&self, i: usize, found: &mut Vec<Diagnostic>) -> Option<Ingredient> {
        let (name, table) = self.entries.get(i)?;
        let like = match self.like(i, found) {
            Like::Nothing => None,
            Like::BuiltIn(ingredient) => Some(ingredient),
            Like::Entry(other) => match self.done.get(other)?.as_ref()? {
                Some(ingredient) => Some(ingredient),
                // what is wrong with the other one is wrong with this one
                None => {
                    found.extend(self.said.get(other).into_iter().flatten().cloned());
                    return None;
                }
            },
            Like::Unknown => return None,
        };
        entry::ingredient(name, table, like, self.text, self.file, found)
    }
}

/// Says which embedded ingredient can no longer be named.
fn shadowing(mut ingredient: Ingredient) -> Ingredient {
    if let Some(built_in) = Larder::built_in().find(&ingredient.name) {
        let note = format!("stands in place of the embedded `{}`", built_in.name);
        let notes = [ingredient.notes, note];
        ingredient.notes = notes.into_iter().filter(|n| !n.is_empty()).collect::<Vec<_>>().join("; ");
    }
    ingredient
}
