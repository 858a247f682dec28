//! What names of ingredients give away.

use std::collections::BTreeSet;

use stillroom::larder::{Ingredient, Larder};
use stillroom::mixture::Component;
use stillroom::safety::allergens::{declared, list};
use stillroom::safety::catalogue::catalogue;
use stillroom::safety::names::{Found, find, find_misspelt, read_allergen};
use stillroom::safety::{Fact, Facts, Market, Member, Members, evaluate, hazards};
use stillroom::vocabulary::{Allergen, Open, Tag, Word};

fn has<T: Word>(found: &BTreeSet<T>, wanted: &str) -> bool {
    found.contains(&T::parse(wanted).expect(wanted))
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
        assert_eq!(*find(plain), Found::default(), "{plain}");
    }
}

#[test]
fn stated_allergens_are_read_whatever_they_are_called() {
    let one = |stated: &str| read_allergen(stated).iter().map(|a| a.as_str().to_owned()).collect::<Vec<_>>();
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
        for entry in list(*market) {
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

/// One danger in five languages: where one of them stops, all do.
#[test]
fn a_danger_is_found_in_every_language() {
    const GRAVE: &[Tag] = &[
        Tag::BitterAlmond,
        Tag::Comfrey,
        Tag::ControlledPlant,
        Tag::Corrosive,
        Tag::ForagedUnsure,
        Tag::Medicine,
        Tag::MilligramPoison,
        Tag::NotFood,
        Tag::Pennyroyal,
        Tag::PoisonMetal,
        Tag::StoneFruitKernel,
        Tag::Tansy,
        Tag::Thuja,
        Tag::ToxicPlant,
        Tag::UnfitSmoke,
    ];
    let table = include_str!("../dangers/languages.csv");
    let rows: Vec<&str> = table.lines().filter(|line| !line.starts_with('#')).skip(1).collect();
    assert!(rows.len() >= 85, "{}", rows.len());
    let mut silent = Vec::new();
    for name in rows.iter().flat_map(|row| row.split(',')).filter(|name| !name.is_empty()) {
        let found = find(name);
        if !found.tags.iter().chain(&found.unsure).any(|tag| GRAVE.contains(tag)) {
            silent.push(name);
        }
    }
    assert!(silent.is_empty(), "{silent:#?}");
}

/// Words of an ordinary bar that hold the letters of a danger, or are it in another language.
#[test]
fn a_word_of_an_ordinary_bar_is_no_danger() {
    let names = "hash browns|if clear|lead time|tulip glass|verre tulipe|broom|digital scale|parfum vanille|le parfum du citron|\
        il profumo del limone|hoja de ruta|si consolida|borage flowers|fleurs de bourrache|Borretschblüten|flores de borraja|\
        fiori di borragine|canned kidney beans|cinco de mayo|black locust honey|citronelle|citronella|lemon balm|lime water|\
        yeast extract|tulsi|galangal|tonic|carmine|tajin|joint of ham|a cask from Cologne|water lily|sea anemone|\
        clary sage|moringa|chaga|hazelwood|buttermint|fragola|teinture de gentiane|garnish|Eierfrucht|Brotfrucht|honeysuckle flowers|\
        Passionsfrucht|Kaffeekapsel|Rosenknospen";
    for name in names.split('|') {
        let found = find(name);
        let grave = [
            Tag::ToxicPlant,
            Tag::NotFood,
            Tag::Medicine,
            Tag::PoisonMetal,
            Tag::UnfitSmoke,
            Tag::UnfitVessel,
            Tag::ControlledPlant,
            Tag::Comfrey,
            Tag::Pennyroyal,
        ];
        let hit: Vec<&Tag> = found.tags.iter().chain(&found.unsure).filter(|tag| grave.contains(tag)).collect();
        assert!(hit.is_empty(), "{name}: {hit:?}");
        assert!(found.allergens.is_empty() || name == "joint of ham", "{name}: {:?}", found.allergens);
    }
}

/// A warning that speaks of everything is not heard: the embedded larder is spelt as it is meant.
#[test]
fn no_ingredient_of_the_larder_is_taken_for_a_misspelt_danger() {
    for name in Larder::built_in().iter().flat_map(|ingredient| ingredient.all_names().collect::<Vec<_>>()) {
        assert_eq!(*find_misspelt(name), [], "{name}");
    }
    let house = "kiln rum|mill lane honey|overproof rum|cold coffee concentrate|damson|sloe|quince|rosehip|medlar|bay leaf|\
        smoked paprika|gochugaru|sumac|yuzu|calamansi|sea buckthorn|tarragon|lovage|hibiscus|pandan|lemongrass|verbena";
    for name in house.split('|') {
        assert_eq!(*find_misspelt(name), [], "{name}");
    }
}

#[test]
fn every_tag_that_a_caution_looks_for_can_be_given() {
    // of the product, stated by its class, reckoned by its serving, by what its parts lie in; of an entry of the house, by what it is like
    // of a boil or a frost beside a closed glass
    let stated = [
        Tag::BurstingGlass,
        Tag::Dried,
        Tag::FalseClaim,
        Tag::ForInfants,
        Tag::Overdose,
        Tag::PlantInSyrup,
        Tag::SoundsSober,
        Tag::Spoiled,
        Tag::UncheckedPlant,
    ];
    let names = concat!(
        // what a step tells
        include_str!("../../src/safety/data/method-words.csv"),
        include_str!("../../src/safety/data/names.csv"),
        include_str!("../../src/safety/data/names-plants.csv")
    );
    for member in catalogue().rules.iter().flat_map(|rule| rule.condition.members()) {
        let Member::Tag(tag) = member else { continue };
        if stated.contains(&tag) {
            continue;
        }
        let by_hazard = hazards::all().iter().any(|h| h.ingredient_tags.contains(&tag));
        let by_name = names.lines().any(|line| line.split([',', ';']).any(|cell| cell == tag.word()));
        assert!(by_hazard || by_name, "nothing gives `{tag}`");
    }
    // and every tag of the hazards is found by its own name
    for tag in hazards::all().iter().flat_map(|h| h.ingredient_tags.iter()) {
        assert!(has(&find(&tag.said()).tags, tag.word()), "{tag}");
    }
}

#[test]
fn names_only_ever_add() {
    let mut facts = Facts { tags: Members::none(), allergens: Members::none(), ..Facts::default() };
    // No caution looks for a tag that is the house's own; an allergen of no list is kept as it was stated.
    facts.add_ingredient(&["plain biscuit", "wafer"], &["dairy", "house_tag"], &["Egg", "kiwi fruit"]);
    assert!(facts.tags.has(Tag::Dairy));
    for allergen in ["egg", "kiwi fruit", "gluten_cereals (wheat)"] {
        assert!(facts.allergens.has(Open::read(allergen)), "{allergen}");
    }
    // an identified plant is no longer in doubt, a named poison stays one
    let mut facts = Facts { tags: Members::none(), ..Facts::default() };
    facts.add_ingredient(&["foraged nettles"], &["identified"], &[] as &[&str]);
    assert!(!facts.tags.may_hold(Tag::ForagedUnsure));
    facts.add_ingredient(&["foraged hemlock"], &["identified"], &[] as &[&str]);
    assert!(facts.tags.may_hold(Tag::ToxicPlant));
}

#[test]
fn allergens_travel_through_nested_recipes() {
    // what goes into the innermost of three cards, and what must be declared of the outermost
    let cases = [
        ("almonds", Market::Eu, "tree_nuts"),
        ("cashew orgeat", Market::Us, "tree_nuts"),
        ("hazelnuts", Market::Uk, "tree_nuts"),
        ("walnut halves", Market::AuNz, "tree_nuts"),
        ("macadamia nuts", Market::Ca, "tree_nuts"),
        ("pine nuts", Market::Us, "tree_nuts"),
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
        let mut entries = outer.allergens.present.iter().flat_map(|a| declared(market, a, Fact::Unknown));
        assert!(entries.any(|entry| entry.allergen == expected), "{ingredient} in {market:?}");
        assert!(evaluate(&outer).iter().any(|c| c.code == "allergen" && c.is_certain()), "{ingredient}");
    }
}

#[test]
fn what_nobody_may_drink_and_what_the_law_minds_is_found() {
    let cases = [
        ("not_food", "methylated spirit;meths;denatured alcohol;industrial alcohol;isopropyl alcohol;rubbing alcohol"),
        ("not_food", "methanol;wood alcohol;antifreeze;ethylene glycol;bleach;lye;caustic soda;cyanide;borax"),
        ("not_food", "birch tar;Surgical spirit"),
        ("poison_metal", "copper sulphate;cupric sulphate;bronze powder;colloidal silver"),
        ("medicine", "melatonin;modafinil;paracetamol"),
        ("milligram_poison", "sodium nitrite;pink curing salt;caffeine powder;saltpetre"),
        ("quassia", "quassia;quassia wood;bitterwood"),
        ("cinchona", "chinchona bark;kina bark;Chinarinde"),
        ("quinine", "chinin"),
        ("tonka", "tonca bean;tonqua"),
        ("woodruff", "sweet clover;melilot"),
        ("stone_fruit_kernel", "peach leaf"),
        ("cassava", "cassava root"),
        ("toxic_plant", "rue;rhubarb leaf;rhubarb leaves;tomato leaf;mistletoe;daffodil;ivy;hydrangea;cigar leaf"),
        ("toxic_plant", "sweet pea flowers;camphor"),
        ("controlled_plant", "kava;kratom;khat;cannabis;cbd oil;poppy heads"),
        ("toxic_plant", "baies d'if;baies d’if séchées"),
        ("medicine_plant", "st john's wort;St. John’s wort;senna"),
    ];
    for (tag, names) in cases {
        for name in names.split(';') {
            assert!(has(&find(name).tags, tag), "{name}: {:?}", find(name));
        }
    }
    assert!(has(&find("red bark").unsure, "cinchona"));
    for name in ["ground ivy", "poppy seed", "cassava flour", "ethanol", "propylene glycol", "horseradish", "hemp milk"]
    {
        let found = &find(name).tags;
        assert!(!["toxic_plant", "cassava", "not_food", "controlled_plant"].iter().any(|t| has(found, t)), "{name}");
    }
}

#[test]
fn allergens_are_found_in_other_languages() {
    let cases = [
        ("tree_nuts (almond)", "mandeln;almendra;amande;mandorla;lait d'amande"),
        ("tree_nuts (hazelnut)", "haselnuss;Haselnüsse;avellana;noisette;nocciola"),
        ("tree_nuts (walnut)", "walnuss;noce"),
        ("tree_nuts", "nuez;noix;noix (cerneaux)"),
        ("tree_nuts (pistachio)", "pistacios;pistache"),
        ("peanut", "erdnuss;Erdnüsse;cacahuete;cacahuètes"),
        ("egg", "uova;uovo;huevo;huevos;ei;eier;œuf;oeufs;blanc d'œuf;pasta all'uovo"),
        ("sesame", "sesamo;sésame;sesam"),
        ("celery", "apio;céleri;sedano;Sellerie"),
        ("mustard", "mostaza;moutarde;senape;Senf"),
        ("milk", "leche;lait;latte;Milch;Sahne;panna;nata;crème;crème fouettée;beurre noisette"),
        ("gluten_cereals (wheat)", "blé;trigo;Weizen;grano"),
        ("soy", "soja;kecap;kinako;okara"),
        ("fish", "poisson;pescado;nuoc mam;Fischgelatine;gelatina di pesce"),
        ("gluten_cereals (wheat)", "Grünkern;espelta;Zwieback;pain d'épices;pandoro"),
        ("gluten_cereals (rye)", "kvass"),
        ("milk", "lassi;ayran;pandoro"),
        ("lupin", "tremoços"),
        ("molluscs", "Sepiatinte"),
        ("tree_nuts", "Studentenfutter;trail mix"),
        ("tree_nuts (almond)", "romesco;guirlache"),
        ("tree_nuts", "croccante;crocante"),
        ("gluten_cereals (barley)", "Caro-Kaffee;Getreidekaffee"),
        ("soy", "doubanjiang"),
        ("milk", "Sahnebonbon"),
        ("mustard", "Dijon"),
        ("sulphites", "vermut;Traubenmost;mosto de uva;moût de raisin"),
        ("molluscs", "encre de seiche;nero di seppia"),
        ("bee_products", "Bienenbrot;polen;pollen"),
        ("crustaceans", "crevettes"),
        ("molluscs", "noix de Saint-Jacques"),
        ("tree_nuts (coconut)", "lait de coco;noix de coco"),
    ];
    for (allergen, names) in cases {
        for name in names.split(';') {
            assert!(has(&find(name).allergens, allergen), "{name}: {:?}", find(name));
        }
    }
    let not = [
        (
            "milk",
            "nata de coco;crème de cassis;crème de menthe;lait de coco;lait d'amande;leche de tigre;latte di mandorla",
        ),
        ("milk", "beurre de cacao;burro di cacao;espresso crema"),
        ("mustard", "crème de cassis de Dijon"),
        ("tree_nuts", "tiger nuts;noix tigrées"),
        ("tree_nuts", "noix de muscade;noce moscata;nuez moscada;noix de Saint-Jacques;noix de coco"),
        ("tree_nuts (walnut)", "noce moscata"),
        ("tree_nuts (hazelnut)", "beurre noisette"),
        ("egg", "eisenkraut;reishi;eiswein"),
        (
            "gluten_cereals (wheat)",
            "sucre roux;sucre de canne roux;granos de café;muslin;café en grano;trigo sarraceno;blé noir",
        ),
    ];
    for (allergen, names) in not {
        for name in names.split(';') {
            assert!(!has(&find(name).allergens, allergen), "{name}: {:?}", find(name));
        }
    }
}

/// What a house stocks beside what is embedded: none of it is a misspelt poison or allergen.
const STOCKED: &str = "house brandy;mill lane honey;cold coffee concentrate;cassis;toffee apple;angelica root;\
    orris root;lavender;chamomile;rooibos;lemongrass;lemon verbena;kaffir lime leaf;bay leaf;thyme;rosemary;sage;savory;\
    hyssop;fennel seed;caraway;cumin;anise seed;dill seed;saffron;sumac;szechuan pepper;pink peppercorn;grains of paradise;\
    long pepper;cubeb;annatto;turmeric;galangal;horseradish;wasabi;dandelion root;burdock root;chicory root;sarsaparilla;\
    birch bark;cherry bark;oak chips;cedar;spruce tips;pine needle;juniper;sorrel;nettle;elderflower;rose petals;violet;\
    hibiscus;butterfly pea;jasmine;orange blossom;marigold;cornflower;linden;meadowsweet;heather;yarrow;tequila;mezcal;\
    pisco;cachaca;aquavit;grappa;cognac;armagnac;calvados;baijiu;shochu;sake;soju;triple sec;curacao;maraschino;limoncello;\
    sambuca;pastis;ouzo;spent coffee;spent grain;coffee cherry;raw cacao;banana;mango;papaya;guava;\
    kiwi;melon;watermelon;peach;apricot;plum;nectarine;cherry;sour cherry;cranberry;gooseberry;blueberry;mulberry;\
    boysenberry;loganberry;chokeberry;cloudberry;lingonberry;sea salt flakes;smoked salt;pectin;agar;gelatine;gellan;\
    soda water;tonic water;cola;lemonade;ginger ale;sugar cane juice;date syrup;grape molasses;rhubarb;cucumber;beetroot;\
    carrot;tomato water;celery;bell pepper;chipotle;ancho;habanero;jalapeno;chile;manuka honey;bee honey;propolis;verjus;\
    rice vinegar;malt vinegar;sherry vinegar;champagne vinegar;rum;larger batch acid;henna-free colour;sienna fig;persimmon;\
    pandan;shiso;basil;mint;tarragon;chervil;lovage;borage flower;geranium;rose geranium;lapsang;oolong;sencha;matcha;\
    houjicha;genmaicha;yerba mate;guarana;kola nut;damiana;gentian;wild cherry;blackthorn;sloes;\
    rowan berries;hawthorn;rosehip;quince;medlar;pear;crab apple;fig;date;prune;raisin;currant;tamarillo;lychee;longan;\
    rambutan;pomelo;yuzu;bergamot;citron;buddha hand;finger lime;makrut;calamansi;clementine;mandarin;satsuma;blood orange;\
    cardamom;liquorice;star anise;fenugreek;nigella;poppy seed;mahonia;barberry;cascarilla;centaury;blessed thistle;\
    bogbean;zedoary;rhatany;myrrh;mastic;frankincense;benzoin;copal;ambrette;carob;malted milk;creamer;topping;grand cru;\
    extra dry;secco;manna;canna;parsley;parsnip;sweet potato;pumpkin;squash;chilli flakes;cream soda;batter;better bitters";

#[test]
fn what_may_be_misspelt_is_asked() {
    let cases = [
        ("almnds", "almond"),
        ("amlonds", "almond"),
        ("hazlenuts", "hazelnut"),
        ("wormwoood", "wormwood"),
        ("belladona", "belladonna"),
        ("tobbaco leaf", "tobacco"),
        ("cinchonna", "cinchona"),
        ("apricot kernal", "apricot kernel"),
        ("sassafrass root", "sassafras"),
        ("peenut", "peanut"),
        ("methilated spirit", "methylated"),
    ];
    for (name, meant) in cases {
        let may_be: Vec<String> = find_misspelt(name).iter().map(|m| m.meant.clone()).collect();
        let known = find(name).tags.len() + find(name).allergens.len() > 0;
        assert!(may_be.iter().any(|m| m == meant) || known, "{name}: {may_be:?}");
    }
    // neither a known name nor a short one
    for ingredient in Larder::built_in().iter() {
        for name in ingredient.all_names() {
            assert_eq!(*find_misspelt(name), [], "{name}");
        }
    }
    let wrong: Vec<_> =
        STOCKED.split(';').map(|n| (n.trim(), find_misspelt(n))).filter(|(_, m)| !m.is_empty()).collect();
    assert!(wrong.is_empty(), "{:#?}", wrong.iter().map(|(n, m)| (n, &m[0].meant)).collect::<Vec<_>>());
}

#[test]
fn what_may_be_is_never_taken_as_no() {
    let facts = |tags: &[&str]| {
        let mut facts = Facts { tags: Members::none(), allergens: Members::none(), ..Facts::default() };
        facts.add_ingredient(&["almnds and monkshod"], tags, &[] as &[&str]);
        facts
    };
    let asked = facts(&[]);
    assert!(asked.allergens.may_hold(Allergen::Almond) && asked.tags.may_hold(Tag::ToxicPlant));
    assert!(asked.allergens.present.is_empty() && asked.tags.present.is_empty());
    let raised = evaluate(&asked);
    let plant = raised.iter().find(|c| c.code == "toxic_plant").unwrap();
    assert!(plant.not_stated.iter().any(|q| q == "whether `almnds and monkshod` is monkshood"), "{plant}");
    let allergen = raised.iter().find(|c| c.code == "allergen").unwrap();
    assert!(allergen.not_stated.iter().any(|q| q == "whether `almnds and monkshod` is almond"), "{allergen}");
    // somebody who knows has named it
    assert!(!facts(&["identified"]).allergens.may_hold(Allergen::Almond));
}

#[test]
fn lactose_of_the_larder_is_milk() {
    for ingredient in Larder::built_in().iter() {
        let stated: BTreeSet<Open<Allergen>> = ingredient.allergens.iter().flat_map(|a| read_allergen(a)).collect();
        // the table of foods finds a trace of it in eggs too
        if ingredient.per_gram.grams_of(Component::Lactose) > 0.0 && !stated.contains(&Allergen::Egg.into()) {
            assert!(
                stated.contains(&Allergen::Milk.into()) && ingredient.tags.contains(&Tag::Dairy.into()),
                "{}",
                ingredient.name
            );
        }
    }
}

#[test]
fn no_poison_is_taken_for_another_name_of_the_larder() {
    let (larder, mut wrong) = (Larder::built_in(), Vec::new());
    let rows = include_str!("../../src/safety/data/names.csv").lines().filter(|l| !l.starts_with('#')).skip(1);
    for name in rows.map(|row| row.split(',').next().unwrap()).filter(|name| larder.find(name).is_none()) {
        let Some(meant) = larder.suggest(name) else { continue };
        let (of_it, of_meant) = (find(name), find(&meant));
        let known = larder.find(&meant).unwrap();
        let by_row: Vec<Open<Allergen>> = known.allergens.iter().flat_map(|a| read_allergen(a)).collect();
        let covered = of_it.tags.iter().all(|t| of_meant.tags.contains(t) || known.tags.contains(&Open::Known(*t)))
            && of_it.allergens.iter().all(|a| of_meant.allergens.contains(a) || by_row.contains(&Open::Known(*a)));
        if !covered {
            wrong.push((name, meant));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    for name in ["cinchona bark", "quassia", "wormwood", "tonka", "kina bark", "quassia bark"] {
        // what the larder has by now is only itself, with its own tags
        let other = larder.suggest(name).and_then(|meant| larder.find(&meant)).map(|i| &i.id);
        assert!(other.is_none_or(|id| larder.find(name).is_some_and(|own| own.id == *id)), "{name}: {other:?}");
    }
    // a name as people write it, not a key of the tables
    for written in ["whipping creem", "cream 35", "cream-36", "lime juise"] {
        let meant = larder.suggest(written);
        let is_key =
            |name: &str| larder.iter().any(|i: &Ingredient| i.id == name && i.name != name && name.contains('-'));
        assert!(meant.as_deref().is_some_and(|name| !is_key(name)), "{written}: {meant:?}");
    }
}

#[test]
fn what_was_read_says_from_what() {
    let mut facts = Facts { tags: Members::none(), allergens: Members::none(), ..Facts::default() };
    facts.add_ingredient(&["panna"], &[] as &[&str], &[] as &[&str]);
    let raised = evaluate(&facts);
    let allergen = raised.iter().find(|c| c.code == "allergen").unwrap();
    assert_eq!(allergen.because, ["milk from `panna`"]);
    assert!(!allergen.message.contains("declared"));
}

/// What parts a name hides nothing of it.
#[test]
fn a_poison_written_letter_by_letter_is_one() {
    for name in
        ["b e l l a d o n n a", "B.E.L.L.A.D.O.N.N.A", "digi-talis", "be lla donna", "hem lock", "f o x g l o v e s"]
    {
        assert!(find(name).tags.contains(&Tag::ToxicPlant), "{name}: {:?}", find(name));
    }
    for name in ["butter cups", "a b c d", "rum 4 y o", "old tom"] {
        assert!(!find(name).tags.contains(&Tag::ToxicPlant), "{name}");
    }
}
