//! What is taken of a fruit, in French, Spanish, Italian and German: "le jus de 4 citrons", "Schale von 2 Zitronen".

use super::names::Names;
use super::words::WordList;

/// The amount as a card reads it ("juice of 4 citrons"), and the name under which that is known ("jus de citron").
pub(super) fn of_fruit(text: &str, names: Names<'_>) -> Option<(String, String)> {
    let apart = text.replace(['’', '\''], " ").replace("demi-", "demi ").replace("Bio-", "");
    let mut words = apart.split_whitespace().filter(|word| !WordList::Article.has(word)).peekable();
    let taken = behind_its_fruit(words.next()?);
    let as_read = match () {
        () if WordList::Juice.has(taken) => "juice",
        () if WordList::Zest.has(taken) => "zest",
        () => return None,
    };
    // "Saft einer Zitrone"
    if words.next_if(|of| WordList::Of.has(of)).is_none() {
        words.peek().filter(|one| WordList::One.has(one))?;
    }
    let one = |word: &str| if WordList::One.has(word) { "1".to_owned() } else { word.to_owned() };
    let number = words.next_if(|word| WordList::One.has(word) || word.chars().all(|c| c.is_ascii_digit())).map(one);
    // "d'un demi citron", "von einer halben Zitrone"
    let is_whole = number.as_ref().is_none_or(|number| number == "1");
    let half = words.next_if(|word| is_whole && WordList::HalfOf.has(word)).map(|_| "0.5".to_owned());
    let number = half.or(number)?;
    // "8 limoni non trattati"
    let fruit = words.take_while(|word| !WordList::Unless.has(word)).filter(|word| !WordList::Of.has(word));
    let fruit: Vec<&str> = fruit.collect();
    let fruit = fruit.join(" ");
    let name = singulars(&fruit).flat_map(|one| joined(taken, &one)).find(|name| names.knows(name))?;
    // not every plural of four languages is the name of a piece
    let any = if number == "1" || number == "0.5" { "fruit" } else { "fruits" };
    let amounts = [fruit.as_str(), any].map(|of| format!("{as_read} of {number} {of}"));
    let amount = amounts.into_iter().find(|amount| names.refusal(&name, amount).is_none())?;
    Some((amount, name))
}

/// "Orangenschale von 1 Orange" names its fruit twice: what is taken, alone.
fn behind_its_fruit(word: &str) -> &str {
    let ends = || word.char_indices().skip(1).filter_map(|(at, _)| word.get(at..));
    ends().find(|end| WordList::Juice.has(end) || WordList::Zest.has(end)).unwrap_or(word)
}

/// One of what may be several; a form that there is not, no larder has.
fn singulars(fruit: &str) -> impl Iterator<Item = String> {
    let ends = [("", ""), ("es", ""), ("i", "e"), ("i", "o"), ("e", "a"), ("ce", "cia")];
    let fruit = fruit.to_owned();
    ends.into_iter().filter_map(move |(many, one)| Some(format!("{}{one}", fruit.strip_suffix(many)?)))
}

/// As the languages join it: "jus de citron", "succo di limone", "Zitronensaft".
fn joined(taken: &str, fruit: &str) -> [String; 5] {
    let small = taken.to_lowercase();
    let [behind, with_n] = ["", "n"].map(|joint| format!("{fruit}{joint}{small}"));
    [format!("{taken} de {fruit}"), format!("{taken} di {fruit}"), format!("{taken} d'{fruit}"), behind, with_n]
}
