//! From the lines of a text to a draft: what each line is, by what stands above it.

use crate::house::House;
use crate::larder::spoken::taken_of;
use crate::spelling::fold;
use crate::units::told::{clauses, first_told};
use crate::units::{Literal, is_container, literal};
use crate::vocabulary::is_made;

use super::boiled_down::is_heated;
use super::clean::{self, PastedLine};
use super::columns::first_of_two;
use super::double::settled_once;
use super::draft::{Draft, DraftLine, DraftPart, DraftStage};
use super::filled::{self, filled};
use super::heading::{Heading, MOST_HEADING_WORDS, heading};
use super::names::Names;
use super::of_fruit::of_fruit;
use super::one_line::{is_list, one_by_one, steps_behind};
use super::part::{PartSaid, part};
use super::ratio::ratio;
use super::sentence::tells_amounts;
use super::share::known;
use super::strains::{pieces, strains};
use super::words::WordList;
use super::yields::{self, SumSaid};
use super::{
    footnotes, keys, made_apart, mail, method, of_many_drinks, off_heat, parted, peeled, percents, put_in, served,
    share, sheet, spices_alone, spoons, strained, title, waited, whole,
};

/// More lines than any recipe has (ours): what follows is not read, and that is said.
const MOST_LINES: usize = 400;

/// Where a line stands.
#[derive(Clone, Copy, PartialEq)]
enum Under {
    /// Under no heading, or under that of the list of parts.
    Body,
    /// Under the heading of a stage.
    Stage,
    /// Under that of what is put together last.
    Last,
    /// Among the steps.
    Method,
}

pub(super) fn read(text: &str, house: &House) -> Draft {
    let names = Names::of(house, text);
    let table = sheet::as_lines(text);
    let (kept, notes) = footnotes::apart(table.as_deref().unwrap_or(text));
    let lines = mail::without_mail(clean::lines(&kept));
    let (lines, spooned) = spoons::in_full(lines);
    let (lines, columns) = first_of_two(&lines, names).map_or((lines, None), |(lines, of)| (lines, Some(of)));
    let lines: Vec<PastedLine> = lines.into_iter().flat_map(|line| one_by_one(line, names)).collect();
    let mut draft = Draft { customs: house.customs(), ..Draft::default() };
    let mut place = Under::Body;
    let is_from_a_card = text.contains(keys::COMPLETE);
    for (at, line) in lines.iter().take(MOST_LINES).enumerate() {
        let next = lines.get(1).map_or("", |next| next.text.as_str());
        if at == 0 && !is_from_a_card && with_its_size(line, next, &mut draft, names) {
            continue;
        }
        let told = title::before_its_steps(&line.text).filter(|_| at == 0 && !is_from_a_card && !line.numbered);
        if let Some((name, steps)) = told {
            draft.name = Some(title(name));
            place = self::line(&PastedLine { text: steps.to_owned(), ..line.clone() }, place, &mut draft, names);
        } else if at == 0 && is_title(line, names) {
            draft.name = Some(title(&line.text));
            if let Some(asked) = title::may_be_a_part(&line.text, names) {
                draft.last.asked.push(asked);
            }
        } else {
            place = self::line(line, place, &mut draft, names);
        }
    }
    let asks = "that makes one of the parts: a [[stage]] of its own here, or a card of its own";
    draft.last.asked.extend(notes.iter().map(|note| DraftLine::question(note, asks)));
    if lines.len() > MOST_LINES {
        let more = format!("{} more lines were not read: paste one recipe at a time", lines.len() - MOST_LINES);
        draft.last.asked.push(DraftLine::question("", more));
    }
    under_one_heading(&mut draft);
    spices_alone::put_in(&mut draft, names);
    served::advice_apart(&mut draft, names);
    strained::brewed(&mut draft, names);
    put_in::poured_in(&mut draft, names);
    let steps = method::all_steps(&draft);
    peeled::of_whole_fruit(&mut draft, &steps, names);
    made_apart::syrup(&mut draft, names);
    parted::in_two(&mut draft, names);
    off_heat::in_two(&mut draft, names);
    method::read(&mut draft, names);
    filled::in_steps(&mut draft, names);
    parted::all_of_it(&mut draft, names);
    percents::asked(&mut draft, names);
    whole::finish(&mut draft, names);
    of_many_drinks::asked(&lines, &mut draft, names);
    draft.last.asked.extend(spooned);
    columns.iter().for_each(|columns| columns.asked(&mut draft));
    settled_once(&mut draft);
    draft
}

/// All of "Rhubarb syrup" stands under "For the syrup:", and nothing behind: that is the whole, and no stage of it.
fn under_one_heading(draft: &mut Draft) {
    let last = &draft.last;
    let is_empty = last.parts.is_empty() && last.asked.is_empty() && last.keys.is_empty() && last.loss.is_empty();
    let title = fold(draft.name.as_deref().unwrap_or_default());
    let is_whole = |name: &str| title.is_empty() || title.split(' ').any(|word| word == fold(name));
    if !is_empty || draft.is_complete || draft.stages.len() != 1 {
        return;
    }
    let Some(stage) = draft.stages.pop_if(|stage| stage.name.as_deref().is_some_and(is_whole)) else { return };
    let DraftStage { name, steps, .. } = stage.clone();
    draft.name = draft.name.take().or(name);
    draft.steps.splice(0..0, steps);
    draft.last = DraftStage { name: None, steps: Vec::new(), ..stage };
}

/// A title that says how much it makes. Where the lines below have their amounts in front and this one has it behind, it is no
/// part; where it names what is known all the same, it is asked.
fn with_its_size(line: &PastedLine, next: &str, draft: &mut Draft, names: Names<'_>) -> bool {
    let Some(title) = title::sized(&line.text, names) else { return false };
    let is_key = || keys::read(&line.text, &mut Draft::default(), false);
    let in_front = line.heading || title::sized(next, names).is_none();
    if line.numbered || !in_front || is_key() || !title.is_apart && names.knows(title.name) {
        return false;
    }
    draft.name = Some(title.name.to_owned());
    keys::read(&format!("makes: {}", title.makes), draft, false);
    let is_class = || is_made(title.name.split(' ').next_back().unwrap_or_default());
    if names.knows(title.name) && !line.heading && !title.says_so && !is_class() {
        let asks = "is that what the recipe is called and makes (then delete this line), or its first part?";
        draft.last.asked.push(DraftLine::question(&line.text, asks));
    }
    true
}

fn title(text: &str) -> String {
    text.trim_end_matches(':').trim().to_owned()
}

/// Whether the first line names the product: it is no part with an amount, no key, no heading and no sentence.
pub(super) fn is_title(line: &PastedLine, names: Names<'_>) -> bool {
    let text = &line.text;
    if line.heading {
        return true;
    }
    // "For the 1:" is what a table calls its stage
    if text.to_lowercase().starts_with("for the ") && text.ends_with(':') {
        return false;
    }
    let reads = || match part(text, names) {
        PartSaid::Part(_) if title::begins_with_a_unit(text) => false,
        // "Salt solution 20 %" is a name
        PartSaid::Part(part) => part.amount.is_some_and(|amount| !amount.ends_with('%')),
        PartSaid::Asked(_) => text.starts_with(|c: char| c.is_numeric()),
        PartSaid::Nothing => false,
    };
    let is_known_heading = || matches!(heading(line), Some(Heading::Body | Heading::Method));
    let is_key = || keys::read(text, &mut Draft::default(), false) || of_many_drinks::so_many_times(text).is_some();
    !(line.numbered
        || text.ends_with('.')
        || tells_amounts(text, names)
        || is_known_heading()
        || is_key()
        || ratio(text, names).is_some()
        || reads())
}

/// A step that begins like a part has so many words at the least (ours).
const FEWEST_STEP_WORDS: usize = 5;

fn line(line: &PastedLine, place: Under, draft: &mut Draft, names: Names<'_>) -> Under {
    let text = &line.text;
    if place == Under::Method && line.numbered {
        step(text, draft);
        return place;
    }
    // "Notes: keeps a week. Makes 1 litre." is one key
    let has_key = text.split(". ").next().is_some_and(|first| first.contains(':'));
    if place != Under::Method
        && !has_key
        && let Some(rest) = without_yield(text, draft)
    {
        return self::line(&PastedLine { text: rest, ..line.clone() }, place, draft, names);
    }
    if place != Under::Method {
        let told = keys::basis(text).filter(|_| !has_own_basis(text));
        draft.is_of_two |= told.is_some() && draft.basis.is_some() && told != draft.basis;
        draft.basis = draft.basis.or(told);
    }
    if let Some(asks) = of_many_drinks::so_many_times(text).filter(|_| place != Under::Method) {
        draft.keys.push(DraftLine::question(text, asks));
        return place;
    }
    if place != Under::Method
        && let Some(told) = served::told_above(text)
    {
        keys::read(&format!("notes: {told}"), draft, false);
        return place;
    }
    if place != Under::Method
        && let Some(found) = yields::for_size(text, names)
    {
        yields::put(text, found, stage(draft, place), names).map(|makes| keys::read(&makes, draft, false));
        return place;
    }
    if let Some(sum) = yields::sum(text, names).filter(|_| place != Under::Method) {
        let is_made = draft.keys.iter().any(|line| line.toml.starts_with("makes"));
        if let (SumSaid::Size(size), false) = (sum, is_made) {
            keys::read(&format!("makes: about {size}"), draft, false);
        }
        return place;
    }
    let is_basis_alone = keys::basis(text).is_some() && text.split(' ').count() <= 3;
    if place != Under::Method && is_basis_alone || keys::read(text, draft, place == Under::Stage) {
        return place;
    }
    match heading(line) {
        Some(Heading::Body) => return Under::Body,
        Some(Heading::Method) => return Under::Method,
        Some(Heading::Last) => return Under::Last,
        Some(Heading::Stage(name)) => {
            draft.stages.push(DraftStage { name: Some(name), ..DraftStage::default() });
            return Under::Stage;
        }
        None => {}
    }
    if place == Under::Method {
        step(text, draft);
        return place;
    }
    if let Some(part) = all_of_a_stage(text, draft) {
        stage(draft, place).parts.push(part);
        return place;
    }
    if let Some(parts) = ratio(text, names) {
        stage(draft, place).parts.extend(parts);
        return place;
    }
    if let Some(found) = filled(text, names).filter(|_| !line.numbered) {
        filled::makes(&found.size, draft, names);
        stage(draft, place).parts.push(DraftPart { label: found.name, ..DraftPart::default() });
        return place;
    }
    // "Es ergibt ca. 900 ml.", "On obtient 900 ml"
    if let Some(size) = says_what_comes(text, names) {
        keys::read(&format!("makes: about {size}"), draft, false);
        return place;
    }
    // "18 hours in the fridge, filter"
    if waited::begins_with_time(text) {
        step(text, draft);
        return place;
    }
    let words: Vec<&str> = text.split(' ').collect();
    let is_of_fruit = taken_of(text).is_some() || of_fruit(text, names).is_some();
    // "a bottle of gin" without its article is a part
    let is_of = words.get(1).is_some_and(|of| of.eq_ignore_ascii_case("of"));
    // "bottle vodka" of a list
    let is_of = is_of
        || words.first().is_some_and(|first| is_container(first))
            && words.get(1..).is_some_and(|of| names.knows(&of.join(" ")));
    let begins_as_step = !is_of_fruit && !is_of && words.first().is_some_and(|first| WordList::Step.has(first));
    // "A bagnomaria, 70 °C, per 15 minuti."
    let begins_as_step = begins_as_step || WordList::Bath.is_said_in(text) && text.ends_with('.');
    if let Some(asks) = share::share(text, names).filter(|_| !line.numbered && !begins_as_step && !text.ends_with('.'))
    {
        stage(draft, place).asked.push(DraftLine::question(text, asks));
        return place;
    }
    // "Zucker und Wasser aufkochen und abkühlen lassen." begins with a name and is a sentence
    let is_told = is_sentence(text) && text.ends_with('.') && words.len() >= FEWEST_STEP_WORDS;
    let puts_in = || words.iter().any(|word| WordList::PutIn.has(word));
    // "Rum and ginger in a jar 24 hours. Strain. Add the rest."
    if is_told && !is_list(text) && steps_behind(text).is_some() {
        return told(text, place, draft);
    }
    if !line.numbered && tells_amounts(text, names) {
        return told(text, place, draft);
    }
    match part(text, names) {
        // "Dropper bottles. 3 drops a drink." is no part either
        // "Cocer hasta obtener 750 ml."
        PartSaid::Part(part)
            if is_told && (part.amount.is_none() || part.of().contains(". ") || puts_in() || is_heated(part.of())) =>
        {
            step(text, draft);
        }
        PartSaid::Part(mut part) if !begins_as_step || part.amount.is_some() && names.knows(part.of()) => {
            part.is_behind |= draft.stages.is_empty()
                && draft.steps.iter().any(|step| pieces(step).iter().any(|piece| strains(piece.text)));
            stage(draft, place).parts.push(part);
        }
        PartSaid::Asked(question) if !begins_as_step && !line.numbered => {
            stage(draft, place).asked.push(DraftLine::question(text, question));
        }
        _ if begins_as_step || line.numbered || is_sentence(text) || puts_in() => return told(text, place, draft),
        _ => stage(draft, place).asked.push(DraftLine::question(text, "how much of it, or is it a step?")),
    }
    place
}

/// The size in a line that says no more than how much comes of it all.
fn says_what_comes(text: &str, names: Names<'_>) -> Option<String> {
    let words: Vec<&str> = text.trim_end_matches('.').split(' ').collect();
    let is_size = |literal| matches!(literal, Literal::Mass(_) | Literal::Volume(_)).then_some(());
    let (size, ()) = first_told(&words, is_size)?;
    let begins_as_step = words.first().is_some_and(|first| WordList::Step.has(first));
    let is_short = words.len() <= MOST_HEADING_WORDS && clauses(text).len() == 1 && !begins_as_step && !is_heated(text);
    let names_one = (0..words.len()).any(|at| words.get(at..).is_some_and(|rest| known(rest, names).is_some()));
    (is_short && !names_one && WordList::Gives.is_said_in(text)).then_some(size)
}

/// A step, of the stage that it stands in.
fn told(text: &str, place: Under, draft: &mut Draft) -> Under {
    match draft.stages.last_mut() {
        Some(stage) if place == Under::Stage => stage.steps.push(text.to_owned()),
        _ => step(text, draft),
    }
    place
}

/// "All the infusion", "all infusion", "die ganze Infusion", of a stage that stands above.
fn all_of_a_stage(text: &str, draft: &Draft) -> Option<DraftPart> {
    let apart = text.replace(['’', '\''], " ");
    let words: Vec<&str> = apart.split_whitespace().collect();
    let small = |word: &&str| {
        WordList::Of.has(word) || WordList::Article.has(word) || matches!(word.to_lowercase().as_str(), "of" | "the")
    };
    let is_all = |word: &&str| WordList::Whole.has(word);
    let front = words.iter().take_while(|word| is_all(word) || small(word)).count();
    words.iter().take(front).find(|word| is_all(word))?;
    let of = words.get(front..)?.join(" ");
    let mut names = draft.stages.iter().filter_map(|stage| stage.name.as_deref());
    let name = names.find(|name| fold(&name.replace(['’', '\''], " ")) == fold(&of))?;
    Some(DraftPart { label: name.to_owned(), is_stage: true, ..DraftPart::default() })
}

/// A text without the sentence of it that says how much it makes: "Makes about 1 qt. Refrigerate, 1 month."
fn without_yield(text: &str, draft: &mut Draft) -> Option<String> {
    let is_key = |word: &str| WordList::Makes.has(word) || WordList::MakesFor.has(word);
    let begins = |sentence: &str| sentence.split(' ').next().is_some_and(is_key);
    let is_made = draft.keys.iter().any(|line| line.toml.starts_with("makes"));
    let mut sentences: Vec<&str> = text.trim_end_matches('.').split(". ").collect();
    let at = sentences.iter().rposition(|sentence| begins(sentence)).filter(|_| sentences.len() > 1 && !is_made)?;
    keys::read(sentences.get(at)?, draft, false).then(|| {
        sentences.remove(at);
        format!("{}.", sentences.join(". "))
    })
}

/// A step of the method; what it says of the yield is a key ("Stir and bottle. Makes 1 litre.").
fn step(text: &str, draft: &mut Draft) {
    let text = without_yield(text, draft).unwrap_or_else(|| text.to_owned());
    draft.steps.push(text);
}

fn stage(draft: &mut Draft, place: Under) -> &mut DraftStage {
    match draft.stages.last_mut() {
        Some(stage) if place == Under::Stage => stage,
        _ => &mut draft.last,
    }
}

/// "2 parts by weight sugar" says so of itself.
fn has_own_basis(text: &str) -> bool {
    let words: Vec<&str> = text.split(' ').collect();
    words.windows(4).any(|words| matches!(literal::parse(&words.join(" ")), Ok(Literal::Parts(_, Some(_)))))
}

fn is_sentence(text: &str) -> bool {
    let words = text.split(' ').count();
    words >= 3 && (text.ends_with(['.', '!']) || words >= 5 && text.split(' ').any(|word| WordList::Step.has(word)))
}
