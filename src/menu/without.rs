//! Which drinks fall away with a product or an ingredient, through every product of the house that it goes into.

use std::collections::{BTreeSet, VecDeque};

use serde::Serialize;

use crate::card::ICE;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::larder::{Ingredient, Origin};
use crate::mixture::Component;
use crate::safety::dressing::{PutOn, dressings};
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart};
use crate::spelling::{fold, meant_or, nearest, words};
use crate::vocabulary::Kind;

use super::listed::ListedDrink;

/// What is not there.
#[derive(Clone, Debug)]
pub struct Gone {
    /// Its name, as the house has it.
    pub name: String,
    /// What parts of a drink are it, folded: itself, and what the house or the embedded larder has of the same thing.
    is: BTreeSet<String>,
    /// All that it may be called, folded.
    called: BTreeSet<String>,
    /// What is pressed or peeled from it, by the names of the larder: who has no limes has no lime juice.
    of_it: Vec<String>,
    /// Whether it is the ice, which is no part of a drink.
    is_ice: bool,
}

/// Kinds by whose name any of them may be meant (ours).
const OF_ONE_KIND: [Kind; 6] = [Kind::Beer, Kind::Cider, Kind::Wine, Kind::Tea, Kind::Coffee, Kind::Bitters];

/// What a bar takes of a whole fruit (ours).
const TAKEN_OF_A_FRUIT: [&str; 3] = ["juice", "zest", "peel"];

/// A drink that cannot be made.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TakenDown {
    /// Its name.
    #[serde(rename = "of")]
    pub drink: String,
    /// The products through which it goes into it, the outermost first; none where it goes into the glass itself.
    pub by_way_of: Vec<String>,
}

/// A drink that is made without it, and goes out with something of it lacking.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Undressed {
    /// Its name.
    #[serde(rename = "of")]
    pub drink: String,
    /// What lacks, as its garnish, its glass or its steps have it.
    pub lacks: String,
}

impl Gone {
    /// What is taken of it, in its place.
    fn instead(&self, taken: &str) -> Self {
        Self { is: BTreeSet::from([fold(taken)]), is_ice: false, ..self.clone() }
    }

    /// By any name of a product or an ingredient of the house, or by what a drink is garnished with.
    pub fn find(written: &str, house: &House, drinks: &[ListedDrink<'_>], found: &mut Vec<Diagnostic>) -> Option<Self> {
        let folded = fold(written);
        let card = house.cards().find(|card| fold(&card.name) == folded).map(|card| card.name.clone());
        let known = house.larder.find(written).filter(|_| card.is_none());
        let same: Vec<&Ingredient> = known.map(|known| house.larder.same_as(known)).unwrap_or_default();
        // where the house has it under a name of its own, that is its name
        let own = same.iter().find(|of| of.origin != Origin::BuiltIn).copied();
        let name = card.or_else(|| own.or(known).map(|of| of.name.clone()));
        let taken = |of: &&str| house.larder.find(&format!("{written} {of}")).map(|taken| taken.name.clone());
        let gone = Self {
            name: name.clone().unwrap_or_else(|| written.to_owned()),
            is: same.iter().map(|of| &of.name).chain(&name).map(|name| fold(name)).collect(),
            called: same.iter().flat_map(|of| of.written_names()).map(fold).chain([folded]).collect(),
            of_it: TAKEN_OF_A_FRUIT.iter().filter_map(taken).collect(),
            is_ice: known.is_some_and(|known| known.id == ICE),
        };
        if name.is_none() && undressed(&gone, drinks).is_empty() {
            let used: BTreeSet<String> = drinks.iter().flat_map(|drink| used(&drink.glass.solved)).collect();
            let near = nearest(written, used.iter().map(String::as_str));
            let title =
                format!("--without \"{written}\": nothing on the menu, in the house or in its larder is called that");
            let otherwise = "write a name as a card or the larder has it: --without \"Rich muscovado syrup\"";
            return Diagnostic::error(Code::BadArgument, title).help(meant_or(near, otherwise)).refused(found);
        }
        // a garnish of that name does not say that nothing else is meant
        let falls = !without(&gone, drinks).is_empty();
        let meant = if falls { Vec::new() } else { called_like(written, known, drinks) };
        if let [first, ..] = meant.as_slice() {
            let title = format!(
                "--without \"{written}\": nothing on the menu is made with `{}`, but it has {}",
                gone.name,
                meant.join(", ")
            );
            let help = format!("say which of the house's own you mean: --without \"{first}\"");
            return Diagnostic::error(Code::BadArgument, title).help(help).refused(found);
        }
        Some(gone)
    }
}

/// What the drinks have that may be meant: what of the house's own is called so with other words ("field gin", "Weir bitters"), or else
/// what is of that kind (stout for beer); where it is a spirit, the bottles of which the house says no more than their strength.
fn called_like(written: &str, known: Option<&Ingredient>, drinks: &[ListedDrink<'_>]) -> Vec<String> {
    let own = |drink: &ListedDrink<'_>| -> Vec<Ingredient> {
        let all = drink.glass.solved.ingredients().into_iter().filter(|(_, grams)| *grams > 0.0);
        all.filter(|(of, _)| of.origin != Origin::BuiltIn).map(|(of, _)| of.clone()).collect()
    };
    let used: Vec<Ingredient> = drinks.iter().flat_map(own).collect();
    let names = |is_meant: &dyn Fn(&Ingredient) -> bool| -> Vec<String> {
        let all: BTreeSet<&String> = used.iter().filter(|of| is_meant(of)).map(|of| &of.name).collect();
        all.into_iter().cloned().collect()
    };
    let wanted = words(written);
    let mut called = names(&|of| wanted.iter().all(|word| of.written_names().any(|name| words(name).contains(word))));
    let products = drinks.iter().flat_map(|drink| drink.glass.solved.with_inner().into_iter().skip(1));
    let is_called = |name: &String| wanted.iter().all(|word| words(name).contains(word)) && !called.contains(name);
    let products: BTreeSet<String> = products.map(|(card, _)| card.name.clone()).filter(is_called).collect();
    called.extend(products);
    if !called.is_empty() {
        return called;
    }
    match known.and_then(|known| known.kind) {
        Some(Kind::Spirit) => names(&|of| of.kind.is_none() && of.per_gram.grams_of(Component::Ethanol) > 0.0),
        Some(kind) if OF_ONE_KIND.contains(&kind) => {
            let all = drinks.iter().flat_map(|drink| drink.glass.solved.ingredients());
            let of_kind = all.filter(|(of, grams)| *grams > 0.0 && of.kind == Some(kind));
            of_kind.map(|(of, _)| of.name.clone()).collect::<BTreeSet<_>>().into_iter().collect()
        }
        _ => Vec::new(),
    }
}

/// The drinks that something of it is put on and that it does not go into, in the order of the menu.
pub fn undressed(gone: &Gone, drinks: &[ListedDrink<'_>]) -> Vec<Undressed> {
    let fallen = without(gone, drinks);
    let goes_out = |drink: &&ListedDrink<'_>| !fallen.iter().any(|of| of.drink == drink.card.name.value);
    let of = |drink: &ListedDrink<'_>| {
        let lacks = lacking(&drink.glass.solved, &gone.called).or_else(|| lacking_inside(drink, gone))?;
        Some(Undressed { drink: drink.card.name.value.clone(), lacks })
    };
    drinks.iter().filter(goes_out).filter_map(of).collect()
}

/// What is put on a drink, or on a drink in it, that is called so.
fn lacking(drink: &Solved, called: &BTreeSet<String>) -> Option<String> {
    let cards = drink.with_inner().into_iter().map(|(of, _)| &of.card).filter(|card| card.is_drink());
    let mut pieces = cards.flat_map(|card| dressings(card)).map(|(piece, _)| piece);
    let is_it = |piece: &PutOn| {
        let words = format!(" {} ", piece.words.join(" "));
        called.iter().any(|name| words.contains(&format!(" {name} ")))
    };
    pieces.find(is_it).map(|piece| piece.said)
}

/// A product of the house that is put on a drink and is made with it.
fn lacking_inside(drink: &ListedDrink<'_>, gone: &Gone) -> Option<String> {
    let of_it: BTreeSet<String> = gone.of_it.iter().map(|taken| fold(taken)).collect();
    let is_made_with = |held: &String| gone.is.contains(held) || of_it.contains(held);
    let on_it = drink.glass.on_it.iter().find(|of| of.holds.iter().any(is_made_with))?;
    Some(format!("{}, made with it", on_it.said))
}

/// The names of all that goes into a drink.
fn used(drink: &Solved) -> Vec<String> {
    let cards = drink.with_inner().into_iter().skip(1).map(|(card, _)| card.name.clone());
    cards.chain(drink.ingredients().into_iter().map(|(ingredient, _)| ingredient.name.clone())).collect()
}

/// The drinks that cannot be made without it, in the order of the menu.
pub fn without(gone: &Gone, drinks: &[ListedDrink<'_>]) -> Vec<TakenDown> {
    let way = |drink: &ListedDrink<'_>| {
        let by_itself = way_in(&drink.glass.solved, gone);
        let by_way_of = by_itself.or_else(|| {
            let of_it = gone.of_it.iter();
            let mut ways = of_it.filter_map(|taken| Some((way_in(&drink.glass.solved, &gone.instead(taken))?, taken)));
            ways.next().map(|(way, taken)| way.into_iter().chain([taken.clone()]).collect())
        })?;
        Some(TakenDown { drink: drink.card.name.value.clone(), by_way_of })
    };
    drinks.iter().filter_map(way).collect()
}

/// The shortest way by which it goes in, none of a drink that it is itself; `None` where it does not.
fn way_in(drink: &Solved, gone: &Gone) -> Option<Vec<String>> {
    if gone.is.contains(&fold(&drink.name)) {
        return Some(Vec::new());
    }
    let mut next: VecDeque<(&Solved, Vec<String>)> = VecDeque::from([(drink, Vec::new())]);
    let mut seen = BTreeSet::new();
    while let Some((card, way)) = next.pop_front() {
        let is_it = |what: &Material| match what {
            Material::Ingredient(ingredient) => gone.is.contains(&fold(&ingredient.name)),
            Material::Card(place) => {
                card.inner.get(*place).is_some_and(|inner| gone.is.contains(&fold(&inner.card.name)))
            }
            Material::Stage(_) => false,
        };
        // what an aim left out stands at nothing, and is not missed
        let goes_in = |part: &&SolvedPart| part.melts.is_none() && part.mass_g > 0.0;
        let meets_ice = gone.is_ice && card.ice_water.is_some();
        if meets_ice || card.parts().filter(goes_in).any(|part| is_it(&part.found.what)) {
            return Some(way);
        }
        for inner in card.inner.iter().filter(|inner| inner.grams > 0.0 && seen.insert(inner.card.index)) {
            let longer = way.iter().chain([&inner.card.name]).cloned().collect();
            next.push_back((&inner.card, longer));
        }
    }
    None
}
