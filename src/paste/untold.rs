//! What the steps of a typed card put in, cut, fill up or boil down, and its lines do not say. The card is read as the draft of a
//! pasted recipe: what that would ask is asked of it.

use std::sync::Arc;

use crate::card::{Card, ICE, OnNoLine, Part, Stage};
use crate::diagnostic::Span;
use crate::house::House;
use crate::properties::TargetKind;
use crate::units::spans::{SpanEnd, time};
use crate::units::told::{Clause, clauses};
use crate::units::{Literal, in_grams, in_millilitres};
use crate::vocabulary::ProductClass;

use super::boiled_as_far_as::boiled_to;
use super::boiled_down::{is_reduced, steamed_off};
use super::draft::{Draft, DraftLine, DraftPart, DraftStage, Remark};
use super::names::Names;
use super::of_nobody::smoked_with;
use super::served::without_advice;
use super::strains::pieces;
use super::words::WordList;
use super::{changed_in_step, filled, half_of_it, pressed, put_in, roasted, whole_fruit};

/// All of them; of a drink, which is dressed and topped for a guest, what nobody knows and what its lines have otherwise.
pub(crate) fn untold(card: &Card, house: &House) -> Arc<Vec<OnNoLine>> {
    let has_steps = card.all_stages().any(|stage| !stage.steps.is_empty()) || !card.steps.is_empty();
    let has_steps = has_steps || card.notes.is_some();
    let is_called_smoked =
        || card.stages.iter().filter_map(|s| s.name.as_ref()).any(|name| WordList::Smokes.within(&name.value));
    if !has_steps && !is_called_smoked() {
        return Arc::default();
    }
    let draft = drafted(card, Names::of(house, ""));
    // what is read hangs on nothing but the draft and the text; the same card of another size is another draft
    house.on_no_line(&format!("{draft:?}{}", card.text), || read(draft, card, house))
}

fn read(mut draft: Draft, card: &Card, house: &House) -> Vec<OnNoLine> {
    let names = Names::of(house, "");
    let of_card = draft.last.parts.len();
    put_in::poured_in(&mut draft, names);
    filled::in_steps(&mut draft, names);
    changed_in_step::asked(&mut draft, names, card.is_drink());
    // of a drink what is poured is asked, and neither its ice nor a few drops
    let is_ice = |part: &DraftPart| names.house.larder.find(part.of()).is_some_and(|known| known.id == ICE);
    let is_asked = |part: &&DraftPart| !card.is_drink() || is_poured(part, names) && !is_ice(part);
    let put_in = draft.last.parts.iter().skip(of_card).filter(is_asked);
    let added = put_in.map(|part| added(part, &draft));
    let asked: Vec<DraftLine> =
        draft.stages.iter().chain([&draft.last]).flat_map(|stage| stage.asked.clone()).collect();
    let smoked = draft.stages.iter().filter_map(|stage| smoked_with(stage.name.as_deref()?, names));
    let asked: Vec<DraftLine> = asked.into_iter().chain(smoked).collect();
    let all: Vec<DraftLine> = match card.is_drink() {
        true => added.chain(asked.into_iter().filter(|line| line.is_unknown || line.is_change)).collect(),
        false => {
            let of_fruit = whole_fruit::asked_of(card, names);
            let steamed = boiled_down(card, house).into_iter().chain(dried(card));
            let of_fruit = of_fruit.into_iter().chain(pressed::asked_of(card, names));
            let of_fruit = of_fruit.chain(half_of_it::asked_of(card, names));
            let of_fruit = of_fruit.chain(roasted::asked_of(card, names));
            of_fruit.chain(added).chain(asked).chain(steamed).collect()
        }
    };
    // what the card asks in its own text is asked once
    let open = card.open_lines();
    let is_open = |asks: &str| {
        let read = asks.split(": ").next().unwrap_or(asks);
        open.iter().any(|line| line.asked.value.contains(read))
    };
    let told = all.into_iter().flat_map(|line| {
        let is_sure = !line.is_guess;
        line.remarks.into_iter().filter_map(move |remark| match remark {
            Remark::Question(asks) => Some((asks, is_sure)),
            _ => None,
        })
    });
    told.filter(|(asks, _)| !is_open(asks))
        .map(|(asks, is_sure)| OnNoLine { place: place_of(&asks, card), asks, is_sure })
        .collect()
}

/// Where the words stand that a question begins with.
fn place_of(asks: &str, card: &Card) -> Span {
    let said = asks.split(": ").next().unwrap_or(asks);
    let found = card.text.find(said).filter(|_| !said.is_empty());
    found.map_or(card.name.span, |start| Span { start, end: start + said.len() })
}

fn drafted(card: &Card, names: Names<'_>) -> Draft {
    // how a product is served is no work on it
    let work = |steps: &[String]| match card.is_drink() {
        true => steps.to_vec(),
        false => steps.iter().map(|step| without_advice(step, names)).collect(),
    };
    let made = card.makes.and_then(|makes| card.text.get(makes.span.start..makes.span.end));
    let strength = card.targets.iter().filter(|target| target.kind == TargetKind::Abv);
    let ranges = card.ranges.iter().filter(|range| range.kind == TargetKind::Abv);
    Draft {
        is_typed: true,
        makes: made.is_some(),
        keys: made.map(|made| DraftLine::text("makes", made.trim_matches('"'))).into_iter().collect(),
        targets: strength
            .map(|target| DraftLine::of("abv", &target.value.to_string()))
            .chain(ranges.map(|_| DraftLine::of("abv", "")))
            .collect(),
        stages: card.stages.iter().map(|stage| drafted_stage(stage, work(&stage.steps))).collect(),
        last: DraftStage { steps: Vec::new(), ..drafted_stage(&card.last, Vec::new()) },
        steps: work(&card.steps).into_iter().chain(done_by_notes(card)).collect(),
        ..Draft::default()
    }
}

/// What of the notes is work on what is bottled: a sentence that puts something into every bottle, or that has what nobody names go in.
fn done_by_notes(card: &Card) -> Vec<String> {
    let notes = card.notes.iter().filter(|_| !card.is_drink()).flat_map(|notes| notes.split_inclusive(['.', '!']));
    let is_work = |said: &&str| {
        let first = said.split_whitespace().next().unwrap_or_default();
        let orders = || [WordList::Step, WordList::PutIn, WordList::Placed].iter().any(|list| list.has(first));
        WordList::EveryBottle.is_said_in(said) || WordList::Nobody.is_said_in(said) && orders()
    };
    notes.map(str::trim).filter(is_work).map(str::to_owned).collect()
}

fn drafted_stage(stage: &Stage, steps: Vec<String>) -> DraftStage {
    let part = |part: &Part| DraftPart {
        label: part.label.value.clone(),
        of: Some(part.of.value.clone()),
        // how much the rest decides is a question of no step
        amount: part.has_size().then(|| part.written.text.clone()),
        ..DraftPart::default()
    };
    DraftStage {
        name: stage.name.as_ref().map(|name| name.value.clone()),
        parts: stage.parts.iter().map(part).collect(),
        steps,
        ..DraftStage::default()
    }
}

/// Less than this is dashed into a glass and not poured, ml or g: a bar spoon (ours).
const POURED: f64 = 5.0;

fn is_poured(part: &DraftPart, names: Names<'_>) -> bool {
    let size = part.amount.as_deref().and_then(|amount| match names.reads(amount) {
        Ok(Literal::Mass(mass)) => Some(in_grams(mass)),
        Ok(Literal::Volume(volume)) => Some(in_millilitres(volume)),
        _ => None,
    });
    size.is_some_and(|size| size >= POURED)
}

/// What the reader of pasted recipes takes from a step into the list: here it is a line to write.
fn added(part: &DraftPart, draft: &Draft) -> DraftLine {
    let amount = part.amount.as_deref().unwrap_or("as needed");
    let line = part.line(amount).toml;
    let fills = part.remarks.iter().find_map(|remark| match remark {
        Remark::Assumed(said) if part.amount.is_none() => Some(said.clone()),
        _ => None,
    });
    match fills {
        Some(fills) => {
            let made = draft.keys.iter().map(|line| line.toml.as_str()).find(|toml| toml.starts_with("makes"));
            let makes = made.map_or_else(String::new, |made| format!(" and {made}"));
            DraftLine::question(part.of(), format!("{fills}, and no line has it: {line}{makes}"))
        }
        None => {
            // "juice of 4 lemons" names it
            let is_size = amount.starts_with(|c: char| c.is_numeric());
            let said = if is_size { format!("{amount} {}", part.of()) } else { amount.to_owned() };
            DraftLine::question(&said, format!("a step adds it, and no line has it: {line}"))
        }
    }
}

/// Whether a line says what steamed off.
fn says_what_went_up(card: &Card) -> bool {
    card.all_stages().any(|stage| stage.loss.evaporated.is_some() || stage.loss.evaporated_as_needed.is_some())
}

/// What is dried, where no line says what went: as it stands it weighs and keeps as fresh fruit.
fn dried(card: &Card) -> Option<DraftLine> {
    let is_called = card.class.as_ref().is_some_and(|class| class.value == ProductClass::DriedFruit);
    let steps = card.stages.iter().flat_map(|stage| &stage.steps).chain(&card.steps);
    let mut clauses = steps.flat_map(|step| clauses(step));
    // "garnish with a dehydrated wheel" dries nothing
    let dries = |clause: &Clause<'_>| {
        WordList::Dehydrated.within(clause.text) && (is_called || time(&clause.words, SpanEnd::Least).is_some())
    };
    let dried = clauses.find(dries).filter(|_| !says_what_went_up(card))?;
    let asks = "what does it weigh dried? makes = \"… g\" above and [loss] evaporated = \"as needed\"";
    Some(DraftLine::question(dried.text, asks))
}

/// What is boiled down, where no line says what steamed off.
fn boiled_down(card: &Card, house: &House) -> Vec<DraftLine> {
    if says_what_went_up(card) {
        return Vec::new();
    }
    let steps = card.stages.iter().flat_map(|stage| &stage.steps).chain(&card.steps);
    let names = Names::of(house, "");
    let mut asked = steps.filter_map(|step| {
        let all: Vec<Clause<'_>> = pieces(step).into_iter().map(Clause::from).collect();
        let asks = |at: usize| {
            let clause = all.get(at).filter(|clause| !WordList::AsLiked.is_said_in(clause.text))?;
            let as_far = || boiled_to(&all, at, names);
            let remark = if is_reduced(clause.text) { steamed_off(clause) } else { as_far()? };
            let Remark::Question(asks) = remark else { return None };
            let is_open = card.makes.is_some() && !asks.contains("makes = ");
            let by_size = "; or, as `makes` says what is left, evaporated = \"as needed\"";
            let asks = if is_open { asks + by_size } else { asks };
            Some(DraftLine::question(clause.text, asks))
        };
        (0..all.len()).find_map(asks)
    });
    asked.next().into_iter().collect()
}
