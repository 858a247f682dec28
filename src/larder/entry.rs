//! One `[ingredient."name"]` of a house's larder file.

use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic, Severity, Spanned};
use crate::input::Table;
use crate::mixture::alcohol::{abv_of, mass_fraction_of_proof};
use crate::mixture::{Component, Mixture};
use crate::spelling::fold;
use crate::units::LiteralError;
use crate::units::literal::parse;
use crate::units::measures::US_CUP_ML;
use crate::units::readers::{self, Strength};
use crate::units::{Literal, Mass, MassDensity, Ph, in_grams, in_grams_per_litre, kg_per_m3};
use crate::vocabulary::{Allergen, Evidence, Open, Tag, Word};

use super::amounts::amount;
use super::ingredient::{Form, HOLDS, Ingredient, Origin, Stated};
use super::label::{self, Label};
use super::{Larder, per_100g};

pub(super) const KEYS: &[&str] = &[
    "like",
    "per_100g",
    "abv",
    "brix",
    "sugar",
    "acid",
    "ph",
    "price",
    "priced_on",
    "bought",
    "usable",
    "form",
    "density",
    "bulk",
    "cup",
    "piece",
    "holds",
    "tags",
    "allergens",
    "aliases",
    "source",
    "notes",
];

/// What an entry says, with what it is like under it. `None` when it does not say what it is made of, or
/// says it wrongly: an ingredient of a composition that nobody meant is worse than none.
pub(super) fn ingredient(
    name: &Spanned<String>,
    table: &Table,
    like: Option<&Ingredient>,
    file: &Arc<str>,
    found: &mut Vec<Diagnostic>,
) -> Option<Ingredient> {
    let first = found.len();
    table.check_keys(&format!("[ingredient.\"{}\"]", name.value), KEYS, found);
    let Made { per_gram, how, mut notes, stated } = made(name, table, like, found)?;
    let text = |key, found: &mut Vec<Diagnostic>| table.text(key, found).map(|t| t.value.to_owned());

    let form = form(table, found).or(like.map(|l| l.form)).unwrap_or_else(|| {
        let form = likely_form(&per_gram);
        notes.push(format!("taken as a {}: `form` says otherwise", form.word()));
        form
    });
    let holds = holds(table, found);
    let ph = table.get("ph").and_then(|_| ph(table, found));
    let mut allergens = added(table, "allergens", like.map(|l| l.allergens.clone()).unwrap_or_default(), found);
    let tags = like.map(|l| l.tags.iter().map(|tag| tag.as_str().to_owned()).collect()).unwrap_or_default();
    let mut tags: Vec<Open<Tag>> = added(table, "tags", tags, found).iter().map(|tag| Open::read(tag)).collect();
    let bring = |tags: &mut Vec<Open<Tag>>, tag: Tag| {
        if !tags.iter().any(|other| *other == tag) {
            tags.push(tag.into());
        }
    };
    // Lactose comes from milk and from nothing else: an analysis that finds it states the allergen. What the entry is
    // like has stated its own (a table of foods finds a trace in egg white).
    if table.get("per_100g").is_some() && per_gram.grams_of(Component::Lactose) > 0.0 {
        if !allergens.iter().any(|stated| Allergen::parse(stated) == Some(Allergen::Milk)) {
            allergens.push(Allergen::Milk.word().to_owned());
        }
        bring(&mut tags, Tag::Dairy);
    }
    if form == Form::Solid && like.is_some_and(|like| is_another_plant(&name.value, like)) {
        bring(&mut tags, Tag::UncheckedPlant);
    }
    if tags.iter().any(|tag| *tag == Tag::Identified) {
        tags.retain(|tag| *tag != Tag::UncheckedPlant);
    }
    let allergens_stated = table.get("allergens").is_some() || like.is_some_and(|l| l.allergens_stated);
    if !allergens_stated {
        notes.push("allergens not stated".to_owned());
    }
    if let Some(notes_written) = text("notes", found) {
        notes.push(notes_written);
    }
    let ingredient = Ingredient {
        id: name.value.clone(),
        name: name.value.clone(),
        aliases: table.texts("aliases", found).into_iter().map(|t| t.value).collect(),
        form,
        bulk_density: bulk_density(table, found).or(like.and_then(|l| l.bulk_density)),
        piece: piece(table, found).or(like.and_then(|l| l.piece)),
        holds: holds.or(like.and_then(|l| l.holds)),
        holds_status: match holds {
            Some(_) => Some("of this house".to_owned()),
            None => like.and_then(|l| l.holds_status.clone()),
        },
        ph_published: ph.or_else(|| like.and_then(|l| l.ph_published.clone())),
        tags,
        allergens,
        allergens_stated,
        price: text("price", found),
        price_at: table.get("price").map(|(_, value)| value.span),
        usable: usable(table, found),
        priced_on: table.date("priced_on", found).map(|d| d.value.to_owned()),
        status: match (how, like) {
            (None, Some(like)) => like.status.clone(),
            (how, _) => how.unwrap_or(Evidence::Label).into(),
        },
        source: source(text("source", found), how, like),
        notes: notes.join("; "),
        per_gram,
        like: like.map(|l| [l.name.clone()].into_iter().chain(l.like.iter().cloned()).collect()).unwrap_or_default(),
        origin: Origin::House(Arc::clone(file)),
        stated,
    };
    let wrong = found.iter().skip(first).any(|d| d.severity == Severity::Error);
    (!wrong).then_some(ingredient)
}

/// What it is made of, how that is known where the entry says it, and what the maker should know of it.
struct Made {
    per_gram: Mixture,
    how: Option<Evidence>,
    notes: Vec<String>,
    stated: Stated,
}

fn made(name: &Spanned<String>, table: &Table, like: Option<&Ingredient>, found: &mut Vec<Diagnostic>) -> Option<Made> {
    let first = found.len();
    let (label, mut notes) = read_label(table, found);
    let stated = Stated {
        brix: label.brix.is_some(),
        acid: label.acid_g_l.is_some(),
        acid_and_ph: label.acid_and_ph().is_some(),
    };
    let inherited = like.map(|l| l.stated).unwrap_or_default();
    if let Some(like) = like {
        notes.insert(0, format!("like {}", like.name));
    }
    let analysis = table.table("per_100g", found);
    if found.iter().skip(first).any(|d| d.severity == Severity::Error) {
        return None;
    }
    match analysis {
        Some(analysis) if !label.is_empty() => {
            found.push(
                Diagnostic::error(
                    Code::Contradiction,
                    format!("`{}` says twice what it is made of: by `per_100g` and by its label", name.value),
                )
                .at(analysis.span, "the whole composition")
                .help("keep `per_100g`, or keep `abv`, `brix`, `sugar` and `acid`"),
            );
            None
        }
        Some(analysis) => {
            let analysis = per_100g::read(&name.value, analysis, &mut notes, found)?;
            Some(Made { per_gram: analysis.per_gram(), how: Some(Evidence::Analysis), notes, stated })
        }
        None if label.is_empty() => match like {
            Some(like) => {
                notes.extend(Some(like.notes.clone()).filter(|n| !n.is_empty()));
                notes.extend(alone(name, table, &label, found));
                Some(Made { per_gram: like.per_gram, how: None, notes, stated: inherited })
            }
            None => {
                found.push(
                    Diagnostic::error(Code::MissingKey, format!("`{}` does not say what it is made of", name.value))
                        .at(name.span, "made of what?")
                        .help(
                            "give `abv` (a spirit), `brix` (a syrup), `per_100g` (an analysis) or \
                             `like = \"…\"` (an ingredient that is known)",
                        ),
                );
                None
            }
        },
        None => match label::composition(like.map(|l| &l.per_gram), &label) {
            Ok(per_gram) => {
                let how = match label.acid_and_ph() {
                    Some(_) => {
                        if like.is_none() {
                            notes.push(KINDS_NOT_KNOWN.to_owned());
                        }
                        Evidence::MeasuredByTheHouse
                    }
                    None => {
                        notes.extend(alone(name, table, &label, found));
                        Evidence::Label
                    }
                };
                Some(Made { per_gram, how: Some(how), notes, stated: stated.over(inherited) })
            }
            Err(impossible) => {
                found.push(
                    Diagnostic::error(
                        Code::OutOfRange,
                        format!("`{}` cannot be what its label says: {}", name.value, impossible.0),
                    )
                    .at(name.span, "no such liquid")
                    .help("check the figures and their units; strength is in % by volume, sugar and acid in g/L"),
                );
                None
            }
        },
    }
}

/// Said where both readings are there and the acids are not.
const KINDS_NOT_KNOWN: &str = "its acid is taken as citric, and no pH is computed: say what it is `like`";

/// What to say of a pH that came without its acid: it changes nothing that is computed.
fn alone(name: &Spanned<String>, table: &Table, label: &Label, found: &mut Vec<Diagnostic>) -> Option<String> {
    label.ph?;
    let span = table.get("ph").map_or(name.span, |(_, value)| value.span);
    found.push(
        Diagnostic::note(Code::Assumed, format!("the pH of `{}` alone changes nothing that is computed", name.value))
            .at(span, "it does not tell the acid from the minerals that hold it")
            .help("titrate it too, and give `acid` (\"58 g/L\", as citric to pH 8.1): the two together are used"),
    );
    Some("its pH is used only together with a titrated `acid`".to_owned())
}

fn read_label(table: &Table, found: &mut Vec<Diagnostic>) -> (Label, Vec<String>) {
    let mut notes = Vec::new();
    let label = Label {
        abv: amount(table, "abv", abv_percent, found).map(|a| a.value),
        brix: amount(table, "brix", readers::brix, found).map(|b| b.value.get() / 100.0),
        sugar_g_l: amount(table, "sugar", grams_per_litre, found).map(|s| s.value.0),
        acid_g_l: amount(table, "acid", grams_per_litre, found).map(|a| a.value.0),
        // What is wrong with it is said where its words are read.
        ph: table.number("ph", &mut Vec::new()).and_then(|ph| Ph::new(ph.value)),
    };
    for key in ["sugar", "acid"] {
        let percent = table.text(key, &mut Vec::new()).and_then(|t| grams_per_litre(t.value).ok());
        if let Some((g_l, true)) = percent {
            notes.push(format!("{key} in % was read as grams in 100 ml: {g_l} g/L"));
        }
    }
    (label, notes)
}

fn abv_percent(text: &str) -> Result<f64, LiteralError> {
    Ok(match readers::abv(text)? {
        Strength::Abv(abv) => abv.get(),
        // above 200 there is no such spirit: the density of more than pure ethanol is then refused
        Strength::Proof(proof) => mass_fraction_of_proof(proof).map_or(f64::INFINITY, |share| abv_of(share).get()),
    })
}

/// Grams in a litre, and whether they were written as grams in 100 ml ("6 %").
fn grams_per_litre(text: &str) -> Result<(f64, bool), LiteralError> {
    match parse(text)? {
        Literal::Percent(fraction) => Ok((1000.0 * fraction, true)),
        _ => readers::concentration(text).map(|c| (in_grams_per_litre(c), false)),
    }
}

/// What is inherited, and what the entry adds. Nothing that warns a guest can be taken away.
fn added(table: &Table, key: &str, inherited: Vec<String>, found: &mut Vec<Diagnostic>) -> Vec<String> {
    let written = table.texts(key, found);
    if let (true, Some((_, value)), false) = (written.is_empty(), table.get(key), inherited.is_empty()) {
        found.push(
            Diagnostic::error(
                Code::CannotRemove,
                format!("`{key}` cannot take away what the ingredient brings: {}", inherited.join(", ")),
            )
            .at(value.span, "takes away")
            .help(format!(
                "leave `{key}` out; if it is another thing altogether, give its `per_100g` or its label without `like`"
            )),
        );
    }
    let mut all = inherited;
    for text in written {
        if !all.contains(&text.value) {
            all.push(text.value);
        }
    }
    all
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

fn form(table: &Table, found: &mut Vec<Diagnostic>) -> Option<Form> {
    let written = table.text("form", found)?;
    let form = Form::parse(written.value);
    if form.is_none() {
        let mut diagnostic =
            Diagnostic::error(Code::WrongType, format!("a form is liquid or solid, not `{}`", written.value))
                .at(written.span, "liquid or solid");
        if let Some(meant) = Form::nearest(written.value) {
            diagnostic = diagnostic.help(format!("did you mean `{meant}`?")).fix(written.span, format!("\"{meant}\""));
        }
        found.push(diagnostic);
    }
    form
}

/// Honey (17 % water) pours, raw sugar (3 %) and fruit do not.
fn likely_form(per_gram: &Mixture) -> Form {
    let pours = per_gram.grams_of_all(&[Component::Water, Component::Ethanol, Component::Glycerol]) >= 0.15;
    let whole = per_gram.grams_of_all(&Component::UNDISSOLVED) > 0.01;
    if pours && !whole { Form::Liquid } else { Form::Solid }
}

/// Of a solid as it lies: `bulk` or `density` ("0.85 g/ml"), or what a US `cup` of it weighs.
fn bulk_density(table: &Table, found: &mut Vec<Diagnostic>) -> Option<MassDensity> {
    let density = ["bulk", "density"].map(|key| amount(table, key, readers::concentration, found).map(|d| d.value));
    let cup = amount(table, "cup", readers::mass, found).map(|m| kg_per_m3(1000.0 * in_grams(m.value) / US_CUP_ML));
    density.into_iter().flatten().next().or(cup)
}

fn piece(table: &Table, found: &mut Vec<Diagnostic>) -> Option<Mass> {
    amount(table, "piece", readers::mass, found).map(|m| m.value)
}

/// What is usable of what is bought: `usable = "88.5 %"`, or the two weights of a yield test,
/// `bought = "5.2 kg"` and `usable = "4.6 kg"`.
fn usable(table: &Table, found: &mut Vec<Diagnostic>) -> Option<f64> {
    let help = "write usable = \"88.5 %\", or both weights: bought = \"5.2 kg\" and usable = \"4.6 kg\"";
    let bought = amount(table, "bought", readers::mass, found);
    let (share, span) = match (bought, table.get("usable")) {
        (None, None) => return None,
        (None, Some(_)) if table.get("bought").is_some() => return None,
        (None, Some(_)) => amount(table, "usable", readers::fraction, found).map(|s| (s.value, s.span))?,
        (Some(bought), None) => {
            found.push(
                Diagnostic::error(Code::MissingKey, "`bought` stands without `usable`")
                    .at(bought.span, "how much of it was usable?")
                    .help(help),
            );
            return None;
        }
        (Some(bought), Some(_)) => {
            let usable = amount(table, "usable", readers::mass, found)?;
            (in_grams(usable.value) / in_grams(bought.value), usable.span)
        }
    };
    if !(share > 0.0 && share <= 1.0) {
        found.push(
            Diagnostic::error(
                Code::OutOfRange,
                if share > 1.0 { "more is usable than was bought" } else { "nothing is usable of what was bought" },
            )
            .at(span, "more than nothing and at most all of it was expected")
            .help(help),
        );
        return None;
    }
    Some(share)
}

fn holds(table: &Table, found: &mut Vec<Diagnostic>) -> Option<f64> {
    let written = table.number("holds", found)?;
    if !HOLDS.contains(&written.value) {
        let (least, most) = HOLDS.into_inner();
        found.push(
            Diagnostic::error(Code::OutOfRange, format!("holds is {}; {least} to {most} is possible", written.value))
                .at(written.span, "(wet weight out - weight in) / weight in"),
        );
        return None;
    }
    Some(written.value)
}

fn ph(table: &Table, found: &mut Vec<Diagnostic>) -> Option<String> {
    let written = table.number("ph", found)?;
    if !(0.0..=14.0).contains(&written.value) {
        let title = format!("a pH of {} is not possible", written.value);
        found.push(Diagnostic::error(Code::OutOfRange, title).at(written.span, "0 to 14 was expected"));
        return None;
    }
    Some(format!("{} (of this house)", written.value))
}

fn source(written: Option<String>, how: Option<Evidence>, like: Option<&Ingredient>) -> String {
    match (written, how, like) {
        (Some(written), ..) => written,
        (None, None, Some(like)) => like.source.clone(),
        (None, Some(how), _) => format!("{how} of this house, no source given"),
        (None, None, None) => String::new(),
    }
}
