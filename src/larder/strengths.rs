//! A bottle of a kind that the larder has, at the strength of its own label: "rum 54%", "white wine 12 %".

use std::collections::HashMap;
use std::sync::{LazyLock, Mutex, PoisonError};

use crate::spelling::fold;
use crate::vocabulary::Kind;

use super::built_in;
use super::ingredient::Ingredient;
use super::label::{self, LabelFigures};
use super::which_of;

/// How strong a bottle of a kind may be, % vol: by Regulation (EU) 2019/787 for spirits and liqueurs (15 at least; 96 is what
/// can be distilled), (EU) 1308/2013 for wine and its liqueurs (up to 22), from memory; beer and cider as they are sold.
fn strengths_of(kind: Kind) -> Option<(f64, f64)> {
    match kind {
        Kind::Spirit => Some((15.0, 96.0)),
        Kind::Liqueur => Some((14.0, 60.0)),
        Kind::Fortified => Some((14.0, 23.0)),
        Kind::Wine => Some((5.0, 17.0)),
        Kind::Beer | Kind::Cider => Some((0.5, 15.0)),
        _ => None,
    }
}

/// What was made of a name is kept: a card asks for it many times.
static MADE: LazyLock<Mutex<HashMap<String, Option<&'static Ingredient>>>> = LazyLock::new(Mutex::default);

/// The bottle of a folded name that ends or begins with a strength; `None` where there is none, no such thing in the larder, or
/// nothing of its kind is so strong or so weak.
pub(super) fn at_strength(key: &str) -> Option<&'static Ingredient> {
    if !key.contains('%') {
        return None;
    }
    let mut made = MADE.lock().unwrap_or_else(PoisonError::into_inner);
    *made.entry(key.to_owned()).or_insert_with(|| make(key).map(|bottle| &*Box::leak(Box::new(bottle))))
}

/// A name that says its strength in US proof or in degrees, as it says it in percent: "151 proof rum" is 75.5 %, and "alcool 95°" as a
/// label of the continent has it 95 %.
pub(super) fn in_percent(name: &str) -> Option<String> {
    let number = |word: &str| word.replace(',', ".").parse::<f64>().ok();
    let words: Vec<&str> = name.split_whitespace().collect();
    let proof =
        words.windows(2).position(|two| matches!(two, [of, proof] if number(of).is_some() && *proof == "proof"));
    if let Some((at, proof)) = proof.and_then(|at| Some((at, number(words.get(at)?)?))) {
        let percent = format!("{}%", proof / 2.0);
        let rest = words.get(..at)?.iter().chain(words.get(at + 2..)?).copied();
        return Some(std::iter::once(percent.as_str()).chain(rest).collect::<Vec<_>>().join(" "));
    }
    // "vodka (50°)"
    let bare = |word: &&str| word.trim_matches(['(', ')', ',']).to_owned();
    let degrees = |word: &&str| bare(word).strip_suffix(['°', 'º']).and_then(number).is_some();
    let at = words.iter().position(degrees)?;
    let said = |(place, word): (usize, &&str)| {
        if place == at { bare(word).replace(['°', 'º'], "%") } else { word.trim_end_matches(',').to_owned() }
    };
    Some(words.iter().enumerate().map(said).collect::<Vec<_>>().join(" "))
}

fn make(key: &str) -> Option<Ingredient> {
    let (name, strength) = parted(key)?;
    // of a name that may be several bottles the strength says which: "alcool a 95°"
    let likeliest = || which_of(&name)?.first().and_then(|first| built_in::place_of(&fold(first)));
    let base = built_in::place_of(&name).or_else(likeliest).and_then(built_in::at)?;
    let (least, most) = strengths_of(base.kind?)?;
    if !(least..=most).contains(&strength) {
        return None;
    }
    let figures = LabelFigures { abv: Some(strength), ..LabelFigures::default() };
    let per_gram = label::composition(Some(&base.per_gram), &figures).ok()?;
    let bare = base.name.split(|c: char| c.is_ascii_digit()).next().unwrap_or(&base.name).trim_end();
    Some(Ingredient { name: format!("{bare} {strength} %"), aliases: Vec::new(), per_gram, ..base.clone() })
}

/// A name without its strength, and that, % vol.
pub(super) fn parted(key: &str) -> Option<(String, f64)> {
    let key = key.replace(" %", "%");
    let mut strength = None;
    let mut rest = Vec::new();
    let is_joint = |word: &str| ["a", "al", "au", "de", "di", "mit", "von", "at"].contains(&word);
    let mut words = key.split_whitespace().peekable();
    while let Some(word) = words.next() {
        match word.strip_suffix('%').map(|number| number.replace(',', ".").parse::<f64>()) {
            Some(number) if strength.is_none() => strength = Some(number.ok()?),
            Some(_) => return None,
            None if matches!(word, "abv" | "vol" | "alc") => {}
            // "alcool a 95°", "alcool à 90°", "Alkohol mit 80 %"
            None if is_joint(word) && words.peek().is_some_and(|next| next.ends_with('%')) => {}
            None => rest.push(word),
        }
    }
    Some((rest.join(" "), strength?))
}
