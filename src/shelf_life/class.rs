//! What a product may be called, by what is in it, and what is usually quoted for such a product. A class is earned; it adds
//! no day and takes none.

use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use super::hurdles::Hurdles;
use super::product::{Contents, Dairy, Product};
use crate::references::Key;
use crate::vocabulary::{ProductClass, table};

/// Of which store a quoted figure speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum QuotedStore {
    /// A fridge.
    Cold,
    /// A room.
    Room,
}

/// What is usually quoted, beside the date and never in its place.
#[derive(Debug, Deserialize, Serialize)]
pub struct Quoted {
    /// For which class.
    pub class: ProductClass,
    /// In which store: a fridge, or any.
    pub store: QuotedStore,
    /// The low end, days.
    pub low_days: f64,
    /// The high end, days.
    pub high_days: f64,
    /// Where it stands.
    pub source: Key,
}

/// What is usually quoted for a class, the coldest store first.
pub fn quoted(class: ProductClass) -> impl Iterator<Item = &'static Quoted> {
    static QUOTED: LazyLock<Vec<Quoted>> = LazyLock::new(|| table::rows("quoted.csv", include_str!("data/quoted.csv")));
    QUOTED.iter().filter(move |row| row.class == class)
}

/// The classes that a product earns, in the order of the list.
pub fn earned(product: &Product) -> Vec<ProductClass> {
    let hurdles = Hurdles::of(product);
    let all = <ProductClass as crate::vocabulary::Word>::ALL;
    all.iter().copied().filter(|class| missing(*class, product, &hurdles).is_none()).collect()
}

/// The first thing that a product lacks to be called so, in words; `None` where it has it all.
///
/// Liqueur and vermouth: Regulation (EU) 2019/787 and (EU) No 251/2014 (the second from memory). The rest is ours, inside
/// what the trade means by the words.
pub fn missing(class: ProductClass, product: &Product, hurdles: &Hurdles) -> Option<&'static str> {
    use ProductClass as Class;
    let Product { abv_pct: abv, sugar_g_l: sugar, acetic_pct: acetic, raw_juice: juice, .. } = *product;
    let Contents { plant, nut, wine, dairy, egg, drops, .. } = product.contents;
    let brix = product.brix.unwrap_or(0.0);
    let sober = (abv < 0.5, "it has alcohol");
    let sour = (hurdles.ph_up.is_some_and(|ph| ph <= 3.6), "its pH is not known to be 3.6 or less");
    let no_milk_egg_nut = (!nut && egg.is_none() && !product.contents.emulsion_or_milk(), "it has milk, egg or nut");
    let some_juice = (juice < 0.5, "half of it or more is raw juice");
    let checks: &[(bool, &'static str)] = match class {
        Class::Juice => &[(juice >= 0.5, "less than half of it is raw juice"), (abv < 10.0, "it is 10 % vol or more")],
        Class::JuiceDrink => &[
            ((0.05..0.5).contains(&juice), "its raw juice is not 5 to 50 %"),
            (product.aw.is_none_or(|aw| aw > 0.95), "it is too sweet for a drink"),
            (abv < 10.0, "it is 10 % vol or more"),
        ],
        Class::Cordial => &[
            sober,
            (brix >= 30.0, "it has less than 30 °Bx"),
            sour,
            (product.acid_g_l >= 10.0, "it has less than 10 g/L of acid"),
            some_juice,
            (acetic < 1.0, "it has 1 % of acetic acid or more"),
            no_milk_egg_nut,
        ],
        Class::Shrub => &[
            sober,
            (acetic >= 1.0, "it has less than 1.0 % of acetic acid"),
            sour,
            (sugar >= 100.0, "it has less than 100 g/L of sugar"),
            some_juice,
        ],
        Class::PlainSyrup | Class::RichSyrup => &[
            sober,
            (brix >= 40.0, "it has less than 40 °Bx"),
            (!plant && juice <= 0.0 && !nut && dairy.is_none(), "it has plant, juice, nut or dairy in it"),
            (class == Class::PlainSyrup || brix >= 60.0, "it has less than 60 °Bx"),
            (class == Class::PlainSyrup || hurdles.aw_up < 0.90, "its water activity may be 0.90 or more"),
        ],
        Class::FruitSyrup | Class::SpiceSyrup => &[
            sober,
            (brix >= 40.0, "it has less than 40 °Bx"),
            (plant || juice > 0.0, "it has neither plant nor juice in it"),
            some_juice,
        ],
        Class::OleoSaccharum => &[
            (plant, "it has no peel, herb or fruit in it"),
            (brix >= 60.0, "it has less than 60 °Bx"),
            (juice < 0.15, "15 % of it or more is raw juice"),
        ],
        Class::NutSyrup => {
            &[(nut, "it has no nut in it"), (abv < 0.5, "it has alcohol"), (brix >= 40.0, "it has less than 40 °Bx")]
        }
        Class::NutMilk => {
            &[(nut, "it has no nut in it"), (abv < 0.5, "it has alcohol"), (brix < 40.0, "it has 40 °Bx or more")]
        }
        Class::AcidSolution | Class::Saline => &[
            (class == Class::Saline || product.acid_g_l >= 20.0, "it has less than 20 g/L of acid"),
            (class == Class::AcidSolution || product.salt_pct >= 5.0, "it has less than 5 % of salt"),
            (sugar < 5.0 && !plant && juice <= 0.0, "it has sugar, plant or juice in it"),
        ],
        Class::InfusedSpirit => &[
            (abv >= 30.0, "it is below 30 % vol"),
            (sugar < 100.0, "it has 100 g/L of sugar or more"),
            (juice <= 0.0, "it has raw juice in it"),
            no_milk_egg_nut,
        ],
        Class::Bitters | Class::Tincture => &[
            (abv >= 35.0, "it is below 35 % vol"),
            (drops, "its serving is not stated as 2 ml or less"),
            (juice <= 0.0, "it has raw juice in it"),
            (!nut && dairy.is_none(), "it has nut or dairy in it"),
        ],
        Class::Liqueur => &[
            (abv >= 15.0, "it is below 15 % vol"),
            (sugar >= 100.0, "it has less than 100 g/L of sugar"),
            (juice < 0.15, "15 % of it or more is raw juice"),
            no_milk_egg_nut,
        ],
        Class::CreamLiqueur => {
            &[(abv >= 15.0, "it is below 15 % vol"), (dairy == Some(Dairy::Cream), "it has no cream in it")]
        }
        Class::MilkPunch => &[
            (dairy == Some(Dairy::Clarified), "no `washed = \"milk\"` says that its curd is strained off"),
            (abv >= 10.0, "it is below 10 % vol"),
            (hurdles.ph_up.is_some_and(|ph| ph <= 4.6), "its pH is not known to be 4.6 or less"),
        ],
        Class::Vermouth => {
            &[(wine, "it has no wine in it"), ((14.5..22.0).contains(&abv), "it is not 14.5 to 22 % vol")]
        }
        Class::BottledDrink => &[(abv >= 10.0, "it is below 10 % vol"), no_milk_egg_nut],
        Class::DriedFruit => &[(product.is_dry_enough(), "it is not known to have 20 % of water or less")],
    };
    checks.iter().find(|(holds, _)| !holds).map(|(_, what)| *what)
}
