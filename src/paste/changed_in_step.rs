//! What a step of a card changes of its lines: another thing in the place of one, one left out, more of it, or of another strength. Which of the two
//! is done nobody has said.

use crate::card::ICE;
use crate::input::key;
use crate::units::measured_by_hand;
use crate::units::told::{Clause, clauses};
use crate::vocabulary::Kind;

use super::draft::{Draft, DraftLine, DraftPart};
use super::method::all_steps;
use super::names::Names;
use super::ordinary::is_one;
use super::putting::{is_small, puts_in};
use super::served::is_served;
use super::share::known;
use super::speaks::told_in;
use super::strains::{Piece, strains};
use super::words::WordList;

/// Asks of each clause that changes a line, once; of a drink, of each that pours what no line has.
pub(super) fn asked(draft: &mut Draft, names: Names<'_>, is_drink: bool) {
    let lines = OfLines { draft, names, is_drink };
    let mut found = Vec::new();
    for step in all_steps(draft) {
        let all = clauses(&step);
        for (at, clause) in all.iter().enumerate().filter(|(at, _)| !is_served(&all, *at)) {
            let begins = at.checked_sub(1).and_then(|before| all.get(before)).is_none_or(|before| before.is_last);
            found.extend(lines.change(clause, begins).map(|asks| DraftLine {
                is_change: true,
                // "you can use lemon balm instead of mint"
                is_guess: [WordList::AsLiked, WordList::MayBe].iter().any(|list| list.is_said_in(clause.text)),
                ..DraftLine::question(clause.text, asks)
            }));
        }
    }
    draft.last.asked.extend(found);
}

/// What is poured into a glass by more than the dash.
const POURED: [Kind; 13] = [
    Kind::Water,
    Kind::Spirit,
    Kind::Liqueur,
    Kind::Wine,
    Kind::Fortified,
    Kind::Beer,
    Kind::Cider,
    Kind::Soda,
    Kind::Juice,
    Kind::SweetCitrusJuice,
    Kind::Dairy,
    Kind::PlantMilk,
    Kind::Coffee,
];

struct OfLines<'d> {
    draft: &'d Draft,
    names: Names<'d>,
    is_drink: bool,
}

impl OfLines<'_> {
    fn parts(&self) -> impl Iterator<Item = &DraftPart> {
        self.draft.stages.iter().chain([&self.draft.last]).flat_map(|stage| &stage.parts)
    }

    /// The line that a text names.
    fn named(&self, text: &str) -> Option<&DraftPart> {
        let parts: Vec<DraftPart> = self.parts().cloned().collect();
        let told = told_in(&parts, &[&Piece { text, end: text.len(), is_last: true }], self.names);
        let words: Vec<&str> = text.split_whitespace().collect();
        let by_larder = |part: &&DraftPart| {
            let is_it = |at| {
                words
                    .get(at..)
                    .and_then(|words| known(words, self.names))
                    .is_some_and(|name| self.names.same(part.of(), &name))
            };
            (0..words.len()).any(is_it)
        };
        self.parts().zip(told).find(|(_, told)| *told).map(|(part, _)| part).or_else(|| self.parts().find(by_larder))
    }

    /// What a text names that the house knows and no line has.
    fn stranger(&self, text: &str) -> Option<String> {
        self.stranger_where(text, |_| true)
    }

    fn stranger_where(&self, text: &str, is_it: impl Fn(&String) -> bool) -> Option<String> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let is_listed = |name: &String| self.named(name).is_some();
        let is_thing = |name: &String| WordList::Thing.has(name) || WordList::Glass.has_singular(name);
        (0..words.len())
            .filter_map(|at| known(words.get(at..)?, self.names))
            .find(|name| !is_listed(name) && !is_thing(name) && is_it(name))
    }

    /// What to ask.
    fn change(&self, clause: &Clause<'_>, begins: bool) -> Option<String> {
        let text = clause.text.trim_end_matches(['.', '!']);
        self.replaced(text)
            .or_else(|| self.left_out(clause, text, begins))
            .or_else(|| self.another_size(text))
            .or_else(|| self.another_strength(text))
            .or_else(|| self.filled_up(text))
            .or_else(|| self.of_no_line(text))
            .or_else(|| self.poured(text))
    }

    /// "Use milk instead of water", "swap the vodka for apple juice", "pour off half and replace it with water".
    fn replaced(&self, text: &str) -> Option<String> {
        let by = |line: &DraftPart| {
            format!("the lines have {}: which of the two goes in? Write that one as its line", line.label)
        };
        if let Some((front, behind)) = WordList::InsteadOf.round(text) {
            let line = self.named(behind)?;
            // "the demerara instead of the sugar", where a line has the demerara
            let is_as_listed = self.named(front).is_some_and(|own| own.label != line.label);
            let is_other =
                self.stranger(front).is_some() || self.stranger(behind).is_some() || !front.trim().contains(' ');
            return (!is_as_listed && (is_other || self.named(front).is_none())).then(|| by(line));
        }
        if !WordList::Swapped.within(text) {
            return None;
        }
        let is_half = [WordList::Half, WordList::HalfOf].iter().any(|list| list.within(text));
        let of_some = is_half.then(|| self.named(text)).flatten();
        let of_some = of_some.map(|line| format!("how much {} is in it then? Write that on its line", line.label));
        of_some.or_else(|| self.stranger(text).and_then(|_| self.named(text)).map(by))
    }

    /// "Skip the sugar", "Zucker weglassen", "sans sucre cette fois".
    fn left_out(&self, clause: &Clause<'_>, text: &str, begins: bool) -> Option<String> {
        /// A sentence of so many words has no verb (ours).
        const MOST_WORDS: usize = 4;
        let words = &clause.words;
        let is_first =
            |list: WordList, word: Option<&&str>| word.is_some_and(|word| list.has(word.trim_end_matches('.')));
        let is_none_of = begins
            && (clause.is_last || words.len() == text.split_whitespace().count())
            && is_first(WordList::NoneOf, words.first())
            && words.len() <= MOST_WORDS
            && words.get(1..).is_some_and(|behind| known(behind, self.names).is_some());
        // "leave half of the vodka out"
        let is_left = words.first().is_some_and(|first| first.eq_ignore_ascii_case("leave")) && text.ends_with(" out");
        let line = (is_none_of || is_left || WordList::LeftOut.is_said_in(text)).then(|| self.named(text)).flatten()?;
        Some(format!("the lines have {}: does it go in? If not, take its line out, or write how much does", line.label))
    }

    /// "Use double the gin", "half again as much sugar", "stir in more vodka".
    fn another_size(&self, text: &str) -> Option<String> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let more = || {
            let at = words.iter().position(|word| WordList::More.has(word))?;
            let behind = words.get(at + 1..)?;
            // "another 200 ml" has its own question
            let is_size = behind.first().is_some_and(|first| first.starts_with(|c: char| c.is_numeric()));
            let goes_in = puts_in(words.get(..at)?) && !is_size && !self.is_in_turns();
            self.named(&known(behind, self.names).filter(|_| goes_in)?)
        };
        // "Double gin.", and never "double-strain the gin"
        let doubled = || {
            let at = words.iter().position(|word| WordList::DoubleOf.has(word))?;
            let is_a_name = known(words.get(at..)?, self.names).is_some();
            // "double dose of gin"
            let behind = words.get(at + 1..)?;
            let of_dose = behind.iter().take_while(|word| WordList::DoseOf.has(word)).count();
            self.named(&known(behind.get(of_dose..)?, self.names).filter(|_| !is_a_name)?)
        };
        // "Pour the gin twice", and never through a sieve
        let twice = || {
            let pours = words.iter().any(|word| WordList::PutIn.has(word) || WordList::Poured.has(word));
            (WordList::Twice.is_said_in(text) && pours && !strains(text)).then(|| self.named(text)).flatten()
        };
        let said = || WordList::AnotherSize.is_said_in(text).then(|| self.named(text)).flatten();
        let line = said().or_else(more).or_else(doubled).or_else(twice).or_else(|| self.stronger(text, &words))?;
        let own = line.amount.as_ref().map_or_else(String::new, |amount| format!("{amount} of "));
        Some(format!("the lines have {own}{}: how much goes in in all? Write that on its line", line.label))
    }

    /// "Make it a double", "two shots instead of one", "fill the glass with gin": the spirit of a drink, named or not.
    fn stronger(&self, text: &str, words: &[&str]) -> Option<&DraftPart> {
        if !self.is_drink {
            return None;
        }
        let in_place_of_one =
            || WordList::InsteadOf.round(text).is_some_and(|(_, one)| WordList::JustOne.has(one.trim()));
        let bottle = || words.iter().any(|word| WordList::BottleOf.has(word)) && WordList::HalfOf.within(text);
        let named = |goes_in: bool| goes_in.then(|| self.named(text)).flatten().filter(|line| self.is_spirit(line));
        if WordList::ADouble.is_said_in(text) || in_place_of_one() {
            return named(true).or_else(|| self.parts().find(|line| self.is_spirit(line)));
        }
        let fills = || filling_of(words).and_then(|with| known(with, self.names)).and_then(|name| self.named(&name));
        named(bottle()).or_else(|| fills().filter(|line| self.is_spirit(line)))
    }

    /// "Top up with tap water to the neck": how much that took no line can have known.
    fn filled_up(&self, text: &str) -> Option<String> {
        let fills = WordList::ToTheTop.is_said_in(text) && WordList::Tops.is_said_in(text) && !self.is_drink;
        let line = fills.then(|| self.named(text)).flatten().filter(|line| self.is_water(line))?;
        let own = line.amount.as_ref()?;
        let asks = "is that all that fills it up? Weigh what goes in, and write that on its line";
        Some(format!("the lines have {own} of {}: {asks}", line.label))
    }

    fn is_water(&self, line: &DraftPart) -> bool {
        self.names.house.larder.find(line.of()).is_some_and(|known| known.kind == Some(Kind::Water))
    }

    /// Whether a line is what makes a drink strong.
    fn is_spirit(&self, line: &DraftPart) -> bool {
        let kind = self.names.house.larder.find(line.of()).and_then(|known| known.kind);
        matches!(kind, Some(Kind::Spirit | Kind::Liqueur | Kind::Wine | Kind::Fortified))
    }

    /// "Fill to the top with rum", "half a bottle of wine", of which no line has any.
    fn of_no_line(&self, text: &str) -> Option<String> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let bottle = words.iter().position(|word| WordList::BottleOf.has(word));
        let of_bottle = || {
            let at = bottle?;
            let front = words.get(..at)?;
            let is_so_much =
                |word: &&str| [WordList::HalfOf, WordList::One].iter().any(|list| list.has(word)) || is_one(word);
            // "pour it into a bottle"
            let is_into = front.iter().any(|word| WordList::Into.has(word));
            let is_amount = front.iter().any(is_so_much) || words.get(at)?.contains('-');
            let (next, rest) = words.get(at + 1..)?.split_first()?;
            // "a bottle of wine", "eine Flasche Wein"; never "open a bottle the next day"
            let is_of = ["of", "del", "della"].contains(next) || WordList::Of.has(next);
            let behind: Vec<&str> = match is_of {
                true => rest.iter().skip_while(|word| is_small(word)).copied().collect(),
                false if next.starts_with(char::is_uppercase) || next.starts_with("d'") => {
                    words.get(at + 1..)?.to_vec()
                }
                false => return None,
            };
            // "half a bottle of wine", whatever wine
            let one = || behind.first().filter(|word| !WordList::Thing.has(word));
            let name = known(&behind, self.names).or_else(|| one().map(|word| (*word).to_owned()));
            name.filter(|_| is_amount && !is_into)
        };
        let fills = || WordList::ToTheTop.is_said_in(text).then(|| self.stranger(text)).flatten();
        let name = of_bottle().filter(|name| self.named(name).is_none()).or_else(fills)?;
        Some(format!("no line has it, and how much of it goes in? {} = \"… ml\"", key(&name)))
    }

    /// "Build over ice, top with prosecco", "float red wine": it is in the glass, and in no figure of it.
    fn poured(&self, text: &str) -> Option<String> {
        let puts_in = || WordList::PutIn.within(text) && !text.split(' ').any(measured_by_hand);
        let words: Vec<&str> = text.split_whitespace().collect();
        let tops = WordList::Tops.is_said_in(text) || puts_in();
        let filling = filling_of(&words).filter(|_| !tops).map(|with| with.join(" "));
        if !self.is_drink || !(tops || filling.is_some()) {
            return None;
        }
        let is_liquid = |name: &String| {
            let entry = self.names.house.larder.find(name).filter(|entry| entry.id != ICE);
            // a glass is filled with water to chill it
            let is_poured = |kind| POURED.contains(&kind) && (tops || kind != Kind::Water);
            entry.and_then(|entry| entry.kind).is_some_and(is_poured)
        };
        let name = self.stranger_where(filling.as_deref().unwrap_or(text), is_liquid)?;
        Some(format!("it is poured, and no line has it: {} = \"… ml\"", key(&name)))
    }

    /// "Half of the sugar first": more of it is the rest.
    fn is_in_turns(&self) -> bool {
        let lists = [WordList::Half, WordList::HalfOf, WordList::Rest];
        all_steps(self.draft).iter().any(|step| lists.iter().any(|list| list.within(step)))
    }

    /// "Use the 20 % vodka", "use alcohol-free vodka".
    fn another_strength(&self, text: &str) -> Option<String> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let figure = |at: usize| {
            let is_percent = words[at].ends_with('%') || words.get(at + 1).is_some_and(|next| *next == "%");
            let figure = words[at].trim_end_matches('%');
            (is_percent && !figure.is_empty() && figure.chars().all(|c| c.is_ascii_digit())).then_some((figure, at))
        };
        let is_spirit = |part: &&DraftPart| self.is_spirit(part);
        let behind = |at: usize| {
            let from = at + 1 + usize::from(words.get(at + 1).is_some_and(|next| *next == "%"));
            let rest = words.get(from..).unwrap_or_default();
            self.named(rest.iter().take(2).copied().collect::<Vec<_>>().join(" ").as_str())
        };
        let other = (0..words.len()).filter_map(figure).find_map(|(figure, at)| {
            let line = behind(at).filter(is_spirit)?;
            let own = format!("{} {}", line.label, line.of());
            (own.contains('%') && !own.contains(figure)).then_some(line)
        });
        let none = || WordList::WithoutAlcohol.is_said_in(text).then(|| self.named(text).filter(is_spirit)).flatten();
        let line = other.or_else(none)?;
        Some(format!("the lines have {}: which of the two goes in? Write that one as its line", line.label))
    }
}

/// "Fill the glass with gin", "remplir le verre de vodka": what stands behind the glass.
fn filling_of<'w, 's>(words: &'w [&'s str]) -> Option<&'w [&'s str]> {
    let glass = words.iter().position(|word| WordList::AGlass.has(word))?;
    let behind = words.get(glass + 1..).filter(|_| words.iter().any(|word| WordList::FillsGlass.has(word)))?;
    let with = behind.iter().take_while(|word| WordList::FilledWith.has(word)).count();
    behind.get(with..).filter(|_| with > 0)
}
