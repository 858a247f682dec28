//! What German joins into one word: "Tollkirschensaft" names the Tollkirsche.

use crate::spelling::NameWord;

/// What German puts behind the name of a plant or an animal, in one word: parts of it and what is made of it. Folded; from
/// memory. What they name themselves is not read of them: Kokosmilch is no milk.
const TAILS: &[&str] = &[
    "ansatz",
    "aroma",
    "aromen",
    "beere",
    "beeren",
    "bier",
    "bitter",
    "blatt",
    "blatter",
    "blaetter",
    "blute",
    "bluten",
    "bohne",
    "bohnen",
    "bluete",
    "blueten",
    "bowle",
    "bruhe",
    "bruehe",
    "creme",
    "elixier",
    "essenz",
    "extrakt",
    "fond",
    "auszug",
    "frucht",
    "fruchte",
    "holz",
    "kapsel",
    "kapseln",
    "kern",
    "knolle",
    "knospe",
    "konzentrat",
    "knospen",
    "knollen",
    "schote",
    "schoten",
    "spitze",
    "spitzen",
    "kerne",
    "kraut",
    "mazerat",
    "geist",
    "likor",
    "likoer",
    "mark",
    "mehl",
    "milch",
    "mus",
    "ol",
    "oel",
    "nadel",
    "nadeln",
    "paste",
    "pulver",
    "punsch",
    "rinde",
    "saft",
    "same",
    "samen",
    "schale",
    "schalen",
    "schaum",
    "schnaps",
    "sirup",
    "sosse",
    "stangel",
    "stengel",
    "splitter",
    "splittern",
    "stift",
    "stifte",
    "sud",
    "tee",
    "tinktur",
    "trank",
    "tropfen",
    "wasser",
    "wurzel",
    "wurzeln",
    "zweig",
    "zweige",
    "zweigen",
    "zwiebel",
    "zwiebeln",
];
/// Endings of a German plural that the singular of the tables lacks; from memory.
const PLURALS: &[&str] = &["n", "en"];
/// What stands between the two, from memory.
const BETWEEN: &[&str] = &["", "n", "en", "s", "es", "er"];
/// A shorter word before the tail is rather a part of another one (Eis-tee).
const SHORTEST_HEAD: usize = 4;

/// The words of a name, and what stands before the tail of a compound ("Tollkirschensaft": Tollkirsche).
pub(super) fn with_heads(words: Vec<NameWord>) -> Vec<NameWord> {
    let heads: Vec<NameWord> = words.iter().flat_map(heads_of).collect();
    words.into_iter().chain(heads).collect()
}

pub(super) fn heads_of(word: &NameWord) -> Vec<NameWord> {
    let one = PLURALS.iter().filter_map(|end| word.text.strip_suffix(end)).filter(|one| one.len() > SHORTEST_HEAD);
    let before = TAILS.iter().filter_map(|tail| word.text.strip_suffix(tail));
    let cut = before.flat_map(|head| BETWEEN.iter().filter_map(move |joint| head.strip_suffix(joint)));
    let long = cut.filter(|head| head.len() >= SHORTEST_HEAD);
    long.chain(one).map(|head| NameWord { text: head.to_owned(), denied: word.denied }).collect()
}
