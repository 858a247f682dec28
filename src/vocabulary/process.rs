//! What is done to a product, what it is filled into, and the class that chooses the ceiling on its life.

super::words! {
    /// What a card may say was done, where that is dangerous in a way of its own. A card lists what was done: what it
    /// does not list, and no word of its method hints at, is taken as not done.
    StatedProcess, "process":
    Fermented = "fermented",
    Distilled = "distilled",
    Fortified = "fortified",
    PressureInfusion = "pressure infusion",
    SousVide = "sous vide",
    VacuumPacked = "vacuum packed",
    Carbonated = "carbonated",
    Flambeed = "flambeed",
}

impl StatedProcess {
    pub(crate) fn process(self) -> Process {
        match self {
            Self::Fermented => Process::Ferment,
            Self::Distilled => Process::Distil,
            Self::Fortified => Process::Fortify,
            Self::PressureInfusion => Process::PressureInfusion,
            Self::SousVide => Process::SousVide,
            Self::VacuumPacked => Process::ReducedOxygen,
            Self::Carbonated => Process::Carbonated,
            Self::Flambeed => Process::Flambe,
        }
    }
}

super::words! {
    /// What a product may have gone through, as the triggers of the cautions name it.
    Process, "process":
    Acidified = "acidified",
    Blend = "blend",
    Boil = "boil",
    Carbonated = "carbonated",
    Distil = "distil",
    Ferment = "ferment",
    Flambe = "flambe",
    Fortify = "fortify",
    Heat = "heat",
    HotFill = "hot_fill",
    HotInPlastic = "hot_in_plastic",
    InPlastic = "in_plastic",
    Infuse = "infuse",
    KeptWarm = "kept_warm",
    PressureInfusion = "pressure_infusion",
    ReducedOxygen = "rop",
    Sealed = "sealed",
    SealedGlass = "sealed_glass",
    SousVide = "sous_vide",
    WaterBath = "water_bath",
}

impl Process {
    /// What to ask of a product: whether it is …
    pub(crate) fn asked(self) -> &'static str {
        match self {
            Self::Acidified => "acidified in order to keep",
            Self::Blend => "blended from spirits",
            Self::Boil => "boiled",
            Self::Carbonated => "carbonated",
            Self::Distil => "distilled",
            Self::Ferment => "left to ferment",
            Self::Flambe => "set alight",
            Self::Fortify => "fortified",
            Self::Heat => "heated with its alcohol in it",
            Self::HotFill => "filled hot",
            Self::HotInPlastic => "filled hot into plastic",
            Self::InPlastic => "kept in plastic",
            Self::Infuse => "infused in spirit",
            Self::KeptWarm => "kept at room temperature",
            Self::PressureInfusion => "infused under gas pressure",
            Self::ReducedOxygen => "packed under vacuum or gas",
            Self::Sealed => "closed airtight",
            Self::SealedGlass => "closed in glass",
            Self::SousVide => "cooked in a bag",
            Self::WaterBath => "warmed in a water bath",
        }
    }
}

super::words! {
    /// What it is filled into.
    Container, "container":
    Glass = "glass" | "glass bottle" | "glass bottles" | "jar" | "jars" | "glass jar" | "jam jar" | "preserving jar"
        | "bottle" | "bottles" | "carafe" | "decanter" | "swing-top bottle" | "swing top bottle" | "Glas" | "Glasflasche" | "Glasflaschen"
        | "verre" | "bouteille en verre" | "vidrio" | "botella de vidrio" | "vetro" | "bottiglia di vetro",
    Plastic = "plastic" | "Plastik" | "Kunststoff" | "plastique" | "plástico" | "plastica" | "plastic bottle" | "plastic tub" | "tub" | "squeeze bottle" | "squeezy bottle" | "pet"
        | "pet bottle" | "deli container" | "bucket",
    // its maker says that it stands being filled hot: polypropylene, PET that was set in heat
    HotFillPlastic = "hot-fill plastic" | "hot fill plastic" | "polypropylene" | "hot-fill PET" | "hot fill PET" | "heat-set PET",
    Bag = "bag" | "vacuum bag" | "vac bag" | "pouch" | "bag in box",
}

super::words! {
    Fill, "fill":
    Hot = "hot",
    Cold = "cold",
}

super::words! {
    /// What a pan does that is heated so far.
    Bubbles, "heat":
    Simmer = "simmer",
    Boil = "boil",
}

super::words! {
    /// What a spirit or a drink is washed with: the fat is lifted off, the curd is strained off.
    Washed, "wash":
    Fat = "fat",
    Milk = "milk",
}

super::words! {
    /// What a pH is read with.
    PhBy, "instrument":
    Strip = "strip",
    Meter = "meter",
    Laboratory = "laboratory",
}
