//! What names of ingredients give away.

use std::collections::BTreeSet;

use stillroom::larder::Larder;
use stillroom::safety::allergens::{Carrier, declare, list};
use stillroom::safety::catalogue::catalogue;
use stillroom::safety::names::{Found, find, find_misspelt, read_allergen};
use stillroom::safety::{Facts, Market, Members, evaluate, hazards};

fn has(found: &BTreeSet<String>, wanted: &str) -> bool {
    found.contains(wanted)
}

#[test]
fn names_give_tags() {
    let cases = [
        ("cassia bark", "cassia"),
        ("CINNAMON STICKS", "cassia"),
        ("Ceylon cinnamon", "ceylon_cinnamon"),
        ("Apricot kernels", "stone_fruit_kernel"),
        ("kernels of apricot, blanched", "stone_fruit_kernel"),
        ("cherry-stones", "stone_fruit_kernel"),
        ("bitter almond essence", "bitter_almond"),
        ("cinchona", "cinchona"),
        ("Red cinchona bark (C. pubescens)", "cinchona"),
        ("quinine hydrochloride", "quinine"),
        ("tonka", "tonka"),
        ("Tonka beans", "tonka"),
        ("absinthe herb", "artemisia"),
        ("génépi", "artemisia"),
        ("licorice root", "liquorice"),
        ("sassafras", "sassafras"),
        ("elderberries", "elderberry_raw"),
        ("freshly grated nutmeg", "nutmeg"),
        ("egg whites", "raw_egg"),
        ("crème fraîche", "dairy"),
        ("half & half and cream", "dairy"),
        ("hot honey", "honey"),
        ("lime juice, fresh", "raw_juice"),
        ("pink grapefruit", "grapefruit"),
        ("garlic in olive oil", "oil_infusion"),
        ("peppermint oil", "essential_oil"),
        ("liquid nitrogen", "liquid_nitrogen"),
        ("copper mugs", "copper_contact"),
        ("potassium metabisulphite", "sulphite"),
        ("potassium sorbate", "sorbate"),
    ];
    for (name, tag) in cases {
        assert!(has(&find(name).tags, tag), "{name}: {:?}", find(name));
    }
    assert!(has(&find("foraged nettles").unsure, "foraged_unsure"));
}

#[test]
fn names_give_allergens() {
    let cases = [
        ("almond essence", "tree_nuts (almond)"),
        ("Almonds, blanched", "tree_nuts (almond)"),
        ("orgeat", "tree_nuts (almond)"),
        ("cashew orgeat", "tree_nuts (cashew)"),
        ("peanut", "peanut"),
        ("Peanuts, roasted", "peanut"),
        ("peanut butter", "peanut"),
        ("pistachio paste", "tree_nuts (pistachio)"),
        ("brazil nuts", "tree_nuts (brazil nut)"),
        ("mixed nuts", "tree_nuts"),
        ("almond milk", "tree_nuts (almond)"),
        ("coconut milk, canned", "tree_nuts (coconut)"),
        ("butter", "milk"),
        ("whey", "milk"),
        ("whole milk", "milk"),
        ("egg-free egg replacer", "egg"),
        ("Worcestershire sauce", "fish"),
        ("shellfish stock", "molluscs"),
        ("soya lecithin, fluid", "soy"),
        ("soy milk", "soy"),
        ("tahini", "sesame"),
        ("celery seed", "celery"),
        ("mustard powder", "mustard"),
        ("pale malt", "gluten_cereals (barley)"),
        ("oat milk", "gluten_cereals (oats)"),
        ("wheat beer", "gluten_cereals (wheat)"),
        ("dry white wine", "sulphites"),
        ("royal jelly", "bee_products"),
    ];
    for (name, allergen) in cases {
        assert!(has(&find(name).allergens, allergen), "{name}: {:?}", find(name));
    }
}

#[test]
fn false_friends_give_nothing_false() {
    let cases = [
        ("nutmeg", "tree_nuts"),
        ("butternut squash", "tree_nuts (walnut)"),
        ("water chestnut", "tree_nuts (chestnut)"),
        ("tiger nuts", "tree_nuts"),
        ("kola nut", "tree_nuts"),
        ("coconut", "tree_nuts"),
        ("coconut milk", "milk"),
        ("cream of tartar", "milk"),
        ("cream of coconut", "milk"),
        ("cocoa butter", "milk"),
        ("peanut butter", "milk"),
        ("buttercup squash", "milk"),
        ("eggplant", "egg"),
        ("crab apples", "crustaceans"),
        ("oyster mushrooms", "molluscs"),
        ("ginger beer", "gluten_cereals (barley)"),
        ("rye whiskey", "gluten_cereals (rye)"),
        ("buckwheat", "gluten_cereals (wheat)"),
        ("crème de cassis", "milk"),
        ("porter's gin", "egg"),
    ];
    for (name, allergen) in cases {
        assert!(!has(&find(name).allergens, allergen), "{name}: {:?}", find(name));
    }
    let tags = [
        ("honeydew melon", "honey"),
        ("honeysuckle", "honey"),
        ("Ceylon cinnamon", "cassia"),
        ("elderflower", "elderberry_raw"),
        ("apricots", "stone_fruit_kernel"),
        ("lime juice, bottled", "raw_juice"),
        ("lemon balm", "citrus"),
        ("orange flower water", "citrus"),
        ("almond", "bitter_almond"),
    ];
    for (name, tag) in tags {
        assert!(!has(&find(name).tags, tag), "{name}: {:?}", find(name));
    }
    // a friend covers only what stands within it
    assert!(has(&find("coconut milk and whole milk").allergens, "milk"));
    assert!(has(&find("nutmeg and nuts").allergens, "tree_nuts"));
    for plain in ["white sugar", "water", "vodka 40 %", "citric acid, anhydrous", "Table salt", "gum arabic powder", ""]
    {
        assert_eq!(find(plain), Found::default(), "{plain}");
    }
}

#[test]
fn stated_allergens_are_read_whatever_they_are_called() {
    let one = |stated: &str| read_allergen(stated).into_iter().collect::<Vec<_>>();
    for stated in ["tree nut (almond)", "Tree nuts: almond", "tree_nuts (almond)", "almonds"] {
        assert_eq!(one(stated), ["tree_nuts (almond)"], "{stated}");
    }
    assert_eq!(one("tree nuts"), ["tree_nuts"]);
    assert_eq!(one("Gluten"), ["gluten_cereals"]);
    assert_eq!(one("wheat"), ["gluten_cereals (wheat)"]);
    assert_eq!(one("kiwi fruit"), ["kiwi fruit"]);
    assert!(one(" ").is_empty());
    // every allergen of every list reads as something that list covers
    for market in Market::ALL {
        for entry in list(market) {
            let read = read_allergen(&entry.allergen);
            assert!(read.iter().any(|a| entry.covers(a)), "{market:?} {}: {read:?}", entry.allergen);
        }
    }
}

/// Words under which a danger once went by unseen: other spellings, other languages, slips of the pen.
#[test]
fn no_other_word_for_a_danger_goes_by() {
    let names = "methylated spirit|meths|methanol|rubbing alcohol|isopropyl alcohol|denatured alcohol|antifreeze|glycol|bleach|lye|\
        cyanide|borax|copper sulphate|nitrite curing salt|caffeine powder|quassia wood|bitterwood|chinchona bark|cinchonna|\
        kina bark|chinin|chinarinde|red bark|tonca bean|tonqua|sweet clover hay|rue|wormwoood|rhubarb leaves|tomato leaf|\
        belladona|mistletoe|daffodil bulbs|ivy|hydrangea flowers|sweet pea flowers|peach leaves|cassava|poppy heads|tobbaco|\
        cigar leaf|camphor|birch tar|kava|kratom|khat|cannabis|cbd oil|st john's wort|senna|almnds|hazlenuts|peenuts|pistacios|\
        mandeln|haselnuss|almendra|cacahuetes|uova|huevos|eier|oeufs|sesamo|apio|sellerie|moutarde|beurre noisette|\
        apricot kernal|aprikot kernels|apricot pips|artemesia|worm wood|armoise|sasafras|dryice|CO2 ice|cardice|\
        frozen carbon dioxide|wolf's bane|monk's hood|deathcap mushroom|poke root|snus|nicotiana|vape liquid|wild cherry bark|\
        meadow saffron|cuckoo pint|thornapple|jequirity|larkspur|daphne|melilot|horse chestnut|raw kidney beans|coca|opium|\
        magic mushrooms|wood alcohol|surgical spirit|lead acetate|panna|paneer|queso";
    for name in names.split('|') {
        let found = find(name);
        let nothing = found.tags.is_empty() && found.allergens.is_empty() && found.unsure.is_empty();
        assert!(!nothing || !find_misspelt(name).is_empty(), "`{name}` goes by");
    }
}

/// A warning that speaks of everything is not heard: the embedded larder is spelt as it is meant.
#[test]
fn no_ingredient_of_the_larder_is_taken_for_a_misspelt_danger() {
    for name in Larder::built_in().iter().flat_map(|ingredient| ingredient.all_names().collect::<Vec<_>>()) {
        assert_eq!(find_misspelt(name), [], "{name}");
    }
    let house = "kiln rum|mill lane honey|overproof rum|cold coffee concentrate|damson|sloe|quince|rosehip|medlar|bay leaf|\
        smoked paprika|gochugaru|sumac|yuzu|calamansi|sea buckthorn|tarragon|lovage|hibiscus|pandan|lemongrass|verbena";
    for name in house.split('|') {
        assert_eq!(find_misspelt(name), [], "{name}");
    }
}

#[test]
fn every_tag_that_a_caution_looks_for_can_be_given() {
    // of the product, stated by its class; or by a name that this room has no business to guess
    let stated = ["dried", "unchecked_plant"];
    let names = include_str!("../src/safety/data/names.csv");
    for (set, tag) in catalogue().rules.iter().flat_map(|rule| rule.condition.tags()) {
        if set != "tags" || stated.contains(&tag.as_str()) {
            continue;
        }
        let by_hazard = hazards::all().iter().any(|h| h.tags.contains(&tag));
        let by_name = names.lines().any(|line| line.split([',', ';']).any(|cell| cell == tag));
        assert!(by_hazard || by_name, "nothing gives `{tag}`");
    }
    // and every tag of the hazards is found by its own name
    for tag in hazards::all().iter().flat_map(|h| &h.tags) {
        assert!(has(&find(&tag.replace('_', " ")).tags, tag), "{tag}");
    }
}

#[test]
fn names_only_ever_add() {
    let mut facts = Facts { tags: Members::none(), allergens: Members::none(), ..Facts::default() };
    facts.add_ingredient(&["plain biscuit", "wafer"], &["dairy", "house_tag"], &["Egg", "kiwi fruit"]);
    for tag in ["dairy", "house_tag"] {
        assert!(facts.tags.present.contains(tag));
    }
    for allergen in ["egg", "kiwi fruit", "gluten_cereals (wheat)"] {
        assert!(facts.allergens.present.contains(allergen), "{allergen}");
    }
    // an identified plant is no longer in doubt, a named poison stays one
    let mut facts = Facts { tags: Members::none(), ..Facts::default() };
    facts.add_ingredient(&["foraged nettles"], &["identified"], &[] as &[&str]);
    assert!(!facts.tags.may_hold("foraged_unsure"));
    facts.add_ingredient(&["foraged hemlock"], &["identified"], &[] as &[&str]);
    assert!(facts.tags.may_hold("toxic_plant"));
}

#[test]
fn allergens_travel_through_nested_recipes() {
    // what goes into the innermost of three formulas, and what must be declared of the outermost
    let cases = [
        ("almonds", Market::Eu, "tree_nuts"),
        ("cashew orgeat", Market::Us, "tree_nuts"),
        ("hazelnuts", Market::Uk, "tree_nuts"),
        ("walnut halves", Market::AuNz, "tree_nuts"),
        ("macadamia nuts", Market::Ca, "tree_nuts"),
        ("coconut cream", Market::Us, "tree_nuts"),
        ("pine nuts", Market::Ca, "tree_nuts"),
        ("peanuts", Market::Eu, "peanut"),
        ("whole milk, for clarifying", Market::Uk, "milk"),
        ("double cream", Market::Us, "milk"),
        ("whey", Market::AuNz, "milk"),
        ("egg white", Market::Eu, "egg"),
        ("egg yolks", Market::Ca, "egg"),
        ("soy milk", Market::Us, "soy"),
        ("toasted sesame", Market::Us, "sesame"),
        ("celery bitters", Market::Eu, "celery"),
        ("mustard seed", Market::Ca, "mustard"),
        ("oat milk", Market::Uk, "gluten_cereals"),
        ("stout", Market::Eu, "gluten_cereals"),
        ("wheat flour", Market::Us, "wheat"),
        ("red wine", Market::Eu, "sulphites"),
        ("fish sauce", Market::AuNz, "fish"),
        ("clam juice", Market::Eu, "molluscs"),
        ("prawn heads", Market::Us, "crustaceans"),
    ];
    for (ingredient, market, expected) in cases {
        let empty = || Facts { tags: Members::none(), allergens: Members::none(), ..Facts::default() };
        let mut inner = empty();
        inner.add_ingredient(&[ingredient], &[] as &[&str], &[] as &[&str]);
        let mut outer = inner;
        for _ in 0..2 {
            let mut next = empty();
            next.add_ingredient(&["water", "white sugar"], &[] as &[&str], &[] as &[&str]);
            next.take_in(&outer);
            outer = next;
        }
        let declared = declare(market, &outer.allergens, Carrier::Itself);
        assert!(declared.iter().any(|d| d.entry.allergen == expected), "{ingredient} in {market:?}");
        assert!(evaluate(&outer).iter().any(|c| c.code == "allergen" && c.is_certain()), "{ingredient}");
    }
}
