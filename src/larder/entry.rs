//! One `[ingredient."name"]` of a house's larder file.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic, Severity, Spanned};
use crate::input::{FileReader, Laid, Table, quoted};
use crate::mixture::{Component, Mixture};
use crate::spelling::fold;
use crate::units::measures::US_CUP_ML;
use crate::units::{Mass, MassDensity, Ph, in_grams, kg_per_m3};
use crate::vocabulary::{Allergen, Evidence, Kind, Open, Tag, Word};

use super::ingredient::{Alkali, Form, Ingredient, Origin, Stated};
use super::label::LabelFigures;
use super::lent;
use super::written::{self, PerLitre, Written};
use super::{Larder, brix_alone, per_100g, portion, sour};

/// What an entry says, with what it is like under it. `None` when it does not say what it is made of, or
/// says it wrongly: an ingredient of a composition that nobody meant is worse than none.
pub(super) fn ingredient(
    name: &Spanned<String>,
    table: &Table,
    like: Option<&Ingredient>,
    text: &str,
    file: &Arc<str>,
    found: &mut Vec<Diagnostic>,
) -> Option<Ingredient> {
    let first = found.len();
    let mut reader = FileReader::new(text, written::HINTS, std::mem::take(found));
    let entry = Written::LAYOUT.read_at(table, &format!("[ingredient.\"{}\"]", name.value), &mut reader);
    *found = reader.found;
    let unread = [
        ("per_100g", entry.per_100g.is_none()),
        ("abv", entry.abv.is_none()),
        ("brix", entry.brix.is_none()),
        ("sugar", entry.sugar.is_none()),
        ("acid", entry.acid.is_none()),
    ];
    if unread.iter().any(|(key, is_none)| *is_none && table.get(key).is_some()) {
        return None;
    }
    let lender = like.filter(|like| !is_the_same(&name.value, like));
    let Made { per_gram, how, mut notes, stated } = made(name, &entry, like, found)?;
    let named = Larder::built_in().find(&name.value);
    if let Some(refused) = named.and_then(|known| sour::refused(name, table, &per_gram, known)) {
        return refused.refused(found);
    }
    let in_doubt = |lender: &&Ingredient| {
        let is_lent = entry.per_100g.is_none() && entry.acid.is_none();
        is_lent || sour::spoils_too_sour(&per_gram, lender).is_some()
    };
    let per_gram = match lender.filter(in_doubt) {
        Some(lender) => lent::acid_in_doubt(per_gram, lender, &mut notes),
        None => per_gram,
    };

    if per_gram.grams_of(Component::Ethanol) > lent::TRACE_OF_ALCOHOL && lent::denies_alcohol(&name.value) {
        let title = format!("`{}` says that there is no alcohol in it, and its numbers say that there is", name.value);
        return Diagnostic::error(Code::Contradiction, title)
            .at(name.span, "so called")
            .help("give it the numbers of its own label (brix, sugar, per_100g), or the name that it has")
            .refused(found);
    }

    let form = entry.form.or(like.map(|l| l.form)).unwrap_or_else(|| {
        let form = likely_form(&per_gram);
        notes.push(format!("taken as a {}: `form` says otherwise", form.word()));
        form
    });
    let ph = entry.ph.map(|ph| format!("{} (of this house)", ph.value));
    let mut allergens =
        added("allergens", entry.allergens.as_ref(), like.map(|l| l.allergens.clone()).unwrap_or_default(), found);
    // What the embedded larder has under this very name brings what it brings, whatever the entry is said to be like.
    if let (Some(named), Some(like)) = (named, like)
        && is_kept_by_its_likeness(named, like)
    {
        let title = format!("`{}` is in the larder as {}: it cannot be like {}", name.value, named.name, like.name);
        let refused = Diagnostic::error(Code::Contradiction, title)
            .help("its numbers are built in: take `like` away, or give it the name that it has");
        let at = table.get("like").map_or(name.span, |(_, value)| value.span);
        return refused.at(at, "this would keep it").refused(found);
    }
    let known = named.iter().flat_map(|row| &row.tags).filter(|tag| **tag != Tag::Identified);
    let mut tags: Vec<String> = like.iter().flat_map(|l| &l.tags).chain(known).map(|t| t.as_str().to_owned()).collect();
    let mut seen = BTreeSet::new();
    tags.retain(|tag| seen.insert(tag.clone()));
    let mut tags: Vec<Open<Tag>> =
        added("tags", entry.tags.as_ref(), tags, found).iter().map(|tag| Open::read(tag)).collect();
    if let Some(lender) = lender {
        lent::take_back_what_favours(&mut tags, &name.value, lender, entry.tags.as_ref());
    }
    let bring = |tags: &mut Vec<Open<Tag>>, tag: Tag| {
        if !tags.iter().any(|other| *other == tag) {
            tags.push(tag.into());
        }
    };
    // Lactose comes from milk and from nothing else: an analysis that finds it states the allergen. What the entry is
    // like has stated its own (a table of foods finds a trace in egg white).
    if entry.per_100g.is_some() && per_gram.grams_of(Component::Lactose) > 0.0 {
        if !allergens.iter().any(|stated| Allergen::parse(stated) == Some(Allergen::Milk)) {
            allergens.push(Allergen::Milk.word().to_owned());
        }
        bring(&mut tags, Tag::Dairy);
    }
    if CORRODES.iter().any(|acid| per_gram.grams_of(*acid) >= CORROSIVE_SHARE) {
        bring(&mut tags, Tag::Corrosive);
    }
    if form == Form::Solid && like.is_some_and(|like| is_another_plant(&name.value, like)) {
        bring(&mut tags, Tag::UncheckedPlant);
    }
    if tags.iter().any(|tag| *tag == Tag::Identified) {
        tags.retain(|tag| *tag != Tag::UncheckedPlant);
    }
    // What it is like brings its allergens at least; what else it may bring only somebody who knows it can say.
    let inherited = like.filter(|_| lender.is_none()).is_some_and(|l| l.allergens_stated);
    let allergens_stated = table.get("allergens").is_some() || inherited;
    let label_unread = like.filter(|_| inherited && table.get("allergens").is_none()).and_then(|l| l.label_unread);
    if !allergens_stated {
        notes.push("allergens not stated".to_owned());
    }
    notes.extend(entry.notes.clone());
    let statement = entry.food.as_ref().map(ToString::to_string);
    let own_words = [entry.notes.clone(), entry.source.clone(), statement].into_iter().flatten();
    // what the house wrote of the thing that it is like is said of it too
    let own_words = own_words.chain(like.iter().flat_map(|l| l.own_words.iter().cloned())).collect();
    let ingredient = Ingredient {
        id: name.value.clone(),
        name: name.value.clone(),
        aliases: entry.aliases.iter().map(|t| t.value.clone()).collect(),
        form,
        bulk_density: bulk_density(&entry).or(like.and_then(|l| l.bulk_density)),
        piece: entry.piece.or(like.and_then(|l| l.piece)),
        portions: portion::of_entry(like.map_or(&[], |l| &l.portions), entry.piece, bulk_density(&entry)),
        packs: like.map_or(&[], |l| l.packs),
        holds: entry.holds.or(like.and_then(|l| l.holds)),
        holds_status: match entry.holds {
            Some(_) => Some("of this house".to_owned()),
            None => like.and_then(|l| l.holds_status.clone()),
        },
        strained: like.and_then(|l| l.strained).filter(|_| entry.holds.is_none()),
        // An alkali of another name is one still.
        alkali: like.map_or(Alkali::default(), |l| l.alkali),
        // Its own figures tell its sugar.
        sugar_range: like.filter(|l| l.per_gram == per_gram).and_then(|l| l.sugar_range),
        ph_published: ph.or_else(|| like.and_then(|l| l.ph_published.clone())),
        tags,
        allergens,
        allergens_stated,
        label_unread,
        food: entry.food.clone(),
        named_at: Some((Arc::clone(file), name.span)),
        price_at: entry.price.as_ref().map(|price| price.span),
        price: entry.price.as_ref().map(|price| price.value.clone()),
        usable: usable(&entry, table, found),
        priced_on: entry.priced_on.clone(),
        status: match (how, like) {
            (None, Some(like)) => like.status.clone(),
            (how, _) => how.unwrap_or(Evidence::Label).into(),
        },
        source: source(entry.source, how, like),
        notes: notes.join("; "),
        own_words,
        per_gram,
        kind: named.and_then(|row| row.kind).or_else(|| like.and_then(|like| lent::kind(&name.value, like))),
        like: like.map(names_of_likeness).unwrap_or_default(),
        origin: Origin::House(Arc::clone(file)),
        stated,
    };
    let wrong = found.iter().skip(first).any(|d| d.severity == Severity::Error);
    (!wrong).then_some(ingredient)
}

/// What a thing is called by being like another: by its name, what else the house calls it, and what that is like in turn.
fn names_of_likeness(like: &Ingredient) -> Vec<String> {
    let of_house = matches!(like.origin, Origin::House(_)).then_some(&like.aliases).into_iter().flatten();
    [&like.name].into_iter().chain(of_house).chain(&like.like).cloned().collect()
}

/// What it is made of, how that is known where the entry says it, and what the maker should know of it.
struct Made {
    per_gram: Mixture,
    how: Option<Evidence>,
    notes: Vec<String>,
    stated: Stated,
}

fn made(
    name: &Spanned<String>,
    entry: &Written,
    like: Option<&Ingredient>,
    found: &mut Vec<Diagnostic>,
) -> Option<Made> {
    let (label, mut notes) = label_of(entry);
    let stated = Stated {
        brix: label.brix.is_some(),
        acid: label.acid_g_l.is_some(),
        acid_and_ph: label.acid_and_ph().is_some(),
    };
    let inherited = like.map(|l| l.stated).unwrap_or_default();
    if let Some(like) = like.filter(|_| entry.like.is_some()) {
        notes.insert(0, format!("like {}", like.name));
    }
    let base = like.filter(|l| entry.like.is_some() || label.abv.is_none() || l.kind != Some(Kind::Spirit));
    match &entry.per_100g {
        Some(analysis) if !label.is_empty() => Diagnostic::error(
            Code::Contradiction,
            format!("`{}` says twice what it is made of: by `per_100g` and by its label", name.value),
        )
        .at(analysis.span, "the whole composition")
        .help("keep `per_100g`, or keep `abv`, `brix`, `sugar` and `acid`")
        .refused(found),
        Some(analysis) => {
            let analysis = per_100g::read(&name.value, analysis, &mut notes, found)?;
            Some(Made { per_gram: analysis.per_gram(), how: Some(Evidence::Analysis), notes, stated })
        }
        None if label.is_empty() => match like {
            Some(like) => {
                notes.extend(Some(like.notes.clone()).filter(|n| !n.is_empty()));
                notes.extend(alone(name, entry, found));
                Some(Made { per_gram: like.per_gram, how: None, notes, stated: inherited })
            }
            None => Diagnostic::error(Code::MissingKey, format!("`{}` does not say what it is made of", name.value))
                .at(name.span, "made of what?")
                .help(
                    "give `abv` (a spirit), `brix` (a syrup), `per_100g` (an analysis) or \
                             `like = \"…\"` (an ingredient that is known)",
                )
                .refused(found),
        },
        // a spirit that is called as it is called is all that its strength says
        None => match brix_alone::composed(name, base.map(|l| &l.per_gram), &label, found) {
            Ok(per_gram) => {
                let how = match label.acid_and_ph() {
                    Some(_) => {
                        if like.is_none() {
                            notes.push(KINDS_NOT_KNOWN.to_owned());
                        }
                        Evidence::MeasuredByTheHouse
                    }
                    None => {
                        notes.extend(alone(name, entry, found));
                        Evidence::Label
                    }
                };
                Some(Made { per_gram, how: Some(how), notes, stated: stated.over(inherited) })
            }
            Err(impossible) => Diagnostic::error(
                Code::OutOfRange,
                format!("`{}` cannot be what its label says: {}", name.value, impossible.0),
            )
            .at(name.span, "no such liquid")
            .help("check the figures and their units; strength is in % by volume, sugar and acid in g/L")
            .refused(found),
        },
    }
}

/// Said where both readings are there and the acids are not.
const KINDS_NOT_KNOWN: &str = "its acid is taken as citric, and no pH is computed: say what it is `like`";

/// What to say of a pH that came without its acid: it changes nothing that is computed.
fn alone(name: &Spanned<String>, entry: &Written, found: &mut Vec<Diagnostic>) -> Option<String> {
    let ph = entry.ph?;
    found.push(
        Diagnostic::note(Code::Assumed, format!("the pH of `{}` alone changes nothing that is computed", name.value))
            .at(ph.span, "it does not tell the acid from the minerals that hold it")
            .help("titrate it too, and give `acid` (\"58 g/L\", as citric to pH 8.1): the two together are used"),
    );
    Some("its pH is used only together with a titrated `acid`".to_owned())
}

fn label_of(entry: &Written) -> (LabelFigures, Vec<String>) {
    let label = LabelFigures {
        abv: entry.abv,
        brix: entry.brix.map(|brix| brix.get() / 100.0),
        sugar_g_l: entry.sugar.map(|sugar| sugar.g_l),
        acid_g_l: entry.acid.map(|acid| acid.g_l),
        ph: entry.ph.and_then(|ph| Ph::new(ph.value)),
    };
    let percent = [("sugar", entry.sugar), ("acid", entry.acid)];
    let notes = percent.into_iter().filter_map(|(key, read)| {
        let PerLitre { g_l, .. } = read.filter(|read| read.of_100_ml)?;
        Some(format!("{key} in % was read as grams in 100 ml: {g_l} g/L"))
    });
    (label, notes.collect())
}

/// What is inherited, and what the entry adds. Nothing that warns a guest can be taken away.
fn added(
    key: &str,
    written: Option<&Spanned<Vec<Spanned<String>>>>,
    inherited: Vec<String>,
    found: &mut Vec<Diagnostic>,
) -> Vec<String> {
    if let Some(none) = written.filter(|written| written.value.is_empty() && !inherited.is_empty()) {
        found.push(
            Diagnostic::error(
                Code::CannotRemove,
                format!("`{key}` cannot take away what the ingredient brings: {}", inherited.join(", ")),
            )
            .at(none.span, "takes away")
            .help(format!(
                "leave `{key}` out; if it is another thing altogether, give its `per_100g` or its label without `like`"
            )),
        );
    }
    let mut all = inherited;
    for text in written.into_iter().flat_map(|written| &written.value) {
        if !all.contains(&text.value) {
            all.push(text.value.clone());
        }
    }
    all
}

/// Acids that burn the skin from a quarter of the weight on: Regulation (EC) No 1272/2008, Annex VI, specific limits of
/// acetic and of phosphoric acid; from memory.
const CORRODES: [Component; 2] = [Component::Acetic, Component::Phosphoric];
const CORROSIVE_SHARE: f64 = 0.25;

/// Whether an entry bears the name of one thing and takes the numbers of another that keeps by itself, as spirit, sugar,
/// acid and salt do: a juice that is like vodka would have two years.
fn is_kept_by_its_likeness(named: &Ingredient, like: &Ingredient) -> bool {
    named.kind.is_some_and(Kind::spoils) && like.kind.is_some_and(Kind::keeps)
}

fn is_the_same(name: &str, like: &Ingredient) -> bool {
    let folded = fold(name);
    like.all_names().any(|known| fold(known) == folded)
}

/// Whether a dry plant of the larder lends its numbers to one that the larder does not have. One that bears its name
/// with other words (`madagascar cloves` like `clove`) is of that kind.
fn is_another_plant(name: &str, like: &Ingredient) -> bool {
    let folded = fold(name);
    let words: Vec<&str> = folded.split(' ').collect();
    let bears = |known: &str| fold(known).split(' ').all(|word| words.contains(&word));
    let is_dry_plant = like.form == Form::Solid && like.per_gram.grams_of(Component::Insoluble) > 0.5;
    is_dry_plant && Larder::built_in().find(name).is_none() && !like.all_names().any(bears)
}

/// Honey (17 % water) pours, raw sugar (3 %) and fruit do not.
fn likely_form(per_gram: &Mixture) -> Form {
    let pours = per_gram.grams_of_all(&[Component::Water, Component::Ethanol, Component::Glycerol]) >= 0.15;
    let whole = per_gram.grams_of_all(&Component::UNDISSOLVED) > 0.01;
    if pours && !whole { Form::Liquid } else { Form::Solid }
}

/// Of a solid as it lies: `bulk` or `density` ("0.85 g/ml"), or what a US `cup` of it weighs.
fn bulk_density(entry: &Written) -> Option<MassDensity> {
    let of_cup = |cup: Mass| kg_per_m3(1000.0 * in_grams(cup) / US_CUP_ML);
    entry.bulk.or(entry.density).or(entry.cup.map(of_cup))
}

/// What is usable of what is bought: `usable = "88.5 %"`, or the two weights of a yield test,
/// `bought = "5.2 kg"` and `usable = "4.6 kg"`.
fn usable(entry: &Written, table: &Table, found: &mut Vec<Diagnostic>) -> Option<f64> {
    let help = "write usable = \"88.5 %\", or both weights: bought = \"5.2 kg\" and usable = \"4.6 kg\"";
    let read = match (&entry.bought, &entry.usable) {
        (None, Some(usable)) if table.get("bought").is_none() => (usable.value.share.clone(), usable.span),
        (Some(bought), None) if table.get("usable").is_none() => {
            return Diagnostic::error(Code::MissingKey, "`bought` stands without `usable`")
                .at(bought.span, "how much of it was usable?")
                .help(help)
                .refused(found);
        }
        (Some(bought), Some(usable)) => {
            (usable.value.weight.clone().map(|weight| in_grams(weight) / in_grams(bought.value)), usable.span)
        }
        _ => return None,
    };
    let (share, span) = match read {
        (Ok(share), span) => (share, span),
        (Err(error), span) => {
            let fix = error.fix.as_deref().map(|fix| (span, quoted(fix)));
            return Diagnostic { fix, ..error.at(span, "in `usable`") }.refused(found);
        }
    };
    if !(share > 0.0 && share <= 1.0) {
        return Diagnostic::error(
            Code::OutOfRange,
            if share > 1.0 { "more is usable than was bought" } else { "nothing is usable of what was bought" },
        )
        .at(span, "more than nothing and at most all of it was expected")
        .help(help)
        .refused(found);
    }
    Some(share)
}

fn source(written: Option<String>, how: Option<Evidence>, like: Option<&Ingredient>) -> String {
    match (written, how, like) {
        (Some(written), ..) => written,
        (None, None, Some(like)) => like.source.clone(),
        (None, Some(how), _) => format!("{how} of this house, no source given"),
        (None, None, None) => String::new(),
    }
}
