//! The words by which an ingredient is counted or heaped, folded: what one of them weighs stands in the larder.

super::words! {
    /// What one counts or heaps of an ingredient. What is singular and of its own kind ("berry", "star") is
    /// a piece: of one ingredient only one of them is counted.
    Portion, "portion":
    Piece = "piece" | "each" | "berry" | "corn" | "star" | "fruit" | "pepper" | "olive" | "ball" | "pieces" | "berries" | "corns"
        | "stars" | "fruits" | "peppers" | "olives" | "balls" | "beere" | "beeren" | "baie" | "baies" | "baya" | "bayas" | "bacca"
        | "bacche",
    PartOfPlant = "part of a plant" | "kernel" | "kernels" | "stone" | "stones" | "pit" | "pits" | "pip" | "pips" | "nut" | "nuts"
        | "bean" | "beans" | "flower" | "flowers" | "blossom" | "blossoms" | "blade" | "blades" | "root" | "roots" | "kern" | "kerne"
        | "noyau" | "noyaux" | "hueso" | "huesos" | "nocciolo" | "noccioli" | "blute" | "bluten" | "fleur" | "fleurs" | "flor"
        | "flores" | "fiore" | "fiori",
    Small = "small",
    Medium = "medium",
    Large = "large" | "gros" | "gro" | "grosse" | "grosser" | "grosses" | "grand" | "grande" | "grandes" | "grandi" | "beau" | "beaux" | "belle"
        | "belles" | "bello" | "bella" | "belli",
    ExtraLarge = "extra large" | "extra-large",
    Juice = "juice",
    JuiceOfWedge = "juice of a wedge",
    Zest = "zest",
    Peel = "peel",
    Seeds = "seeds",
    Twist = "twist" | "coin" | "strip" | "twists" | "coins" | "strips",
    Wheel = "wheel" | "wheels" | "rondelle" | "rondelles" | "rondell" | "radchen",
    Slice = "slice" | "rasher" | "ring" | "slices" | "rashers" | "rings" | "scheibe" | "scheiben" | "scheibchen" | "ringe" | "tranche"
        | "tranches" | "tranch" | "rodaja" | "rodajas" | "rebanada" | "rebanadas" | "fetta" | "fette" | "fettina" | "fettine",
    Inch = "inch" | "inches" | "zoll" | "pouce" | "pouces" | "pollice" | "pollici" | "pulgada" | "pulgadas",
    Centimetre = "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters",
    Thread = "thread" | "threads" | "strand" | "strands" | "faden" | "hebra" | "hebras" | "stimma" | "stimmi",
    Wedge = "wedge" | "segment" | "eighth" | "wedges" | "segments" | "eighths" | "achtel" | "spalte" | "spalten" | "schnitz" | "schnitze"
        | "quartier" | "quartiers" | "gajo" | "gajos" | "segmento" | "segmentos" | "segmenti",
    Quarter = "quarter" | "quarters" | "viertel" | "cuarto" | "cuartos" | "quarto" | "quarti",
    Half = "half" | "halves" | "halfte" | "halften" | "moitie" | "moities" | "mitad" | "mitades" | "meta",
    Leaf = "leaf" | "leaves" | "sheet" | "sheets" | "blatt" | "blatter" | "feuille" | "feuilles" | "hoja" | "hojas"
        | "foglia" | "foglie",
    Sprig = "sprig" | "sprigs" | "zweig" | "zweige" | "brin" | "brins" | "ramita" | "ramitas" | "rametto" | "rametti"
        | "branch" | "branche" | "branches" | "zweiglein",
    Bunch = "bunch" | "bunches" | "bund" | "botte" | "bottes" | "bouquet" | "manojo" | "manojos" | "mazzo" | "mazzi"
        | "mazzetto" | "mazzetti" | "bundel",
    Handful = "handful" | "handfuls" | "handvoll" | "poignee" | "poignees" | "punado" | "punados" | "manciata" | "manciate",
    Stick = "stick" | "quill" | "spear" | "sticks" | "quills" | "spears" | "baton" | "batons" | "rama" | "ramas" | "stecca"
        | "stecche" | "bastoncino" | "bastoncini",
    Pod = "pod" | "pods" | "schote" | "schoten" | "kapsel" | "kapseln" | "gousse" | "gousses" | "gouss" | "vaina" | "vainas"
        | "baccello" | "baccelli",
    Clove = "clove" | "cloves" | "zehe" | "zehen" | "spicchio" | "spicchi",
    Stalk = "stalk" | "stem" | "stalks" | "stems" | "stange" | "stangen" | "tige" | "tiges" | "tallo" | "tallos" | "gambo"
        | "gambi",
    Head = "head" | "bulb" | "heads" | "bulbs" | "umbel" | "umbels" | "dolde" | "dolden" | "ombelle" | "ombelles" | "ombell" | "umbela"
        | "umbelas" | "ombrella" | "ombrelle" | "cabezuela" | "cabezuelas",
    Thumb = "thumb" | "finger" | "knob" | "thumbs" | "fingers" | "knobs",
    Bag = "bag" | "bags" | "teabag" | "teabags" | "beutel" | "teebeutel" | "bolsita" | "bolsitas" | "bustina" | "bustine",
    Packet = "packet" | "sachet" | "box" | "packets" | "sachets" | "boxes" | "pack" | "packs" | "package" | "packages" | "pkg" | "pkt"
        | "envelope" | "envelopes" | "packchen" | "pck" | "packung" | "packungen" | "tutchen" | "paquet" | "paquets" | "sobre"
        | "sobres" | "pacchetto" | "pacchetti",
    Can = "can" | "tin" | "cans" | "tins" | "konserve" | "konserven" | "boite" | "boites" | "lata" | "latas" | "lattina" | "lattine"
        | "scatola" | "scatole" | "bote" | "botes",
    Jar = "jar" | "jars" | "glas" | "glaser" | "bocal" | "bocaux" | "tarro" | "tarros" | "barattolo" | "barattoli" | "vasetto"
        | "vasetti",
    Tub = "tub" | "tubs" | "becher" | "tarrina" | "tarrinas" | "vaschetta" | "vaschette",
    Punnet = "punnet" | "punnets" | "barquette" | "barquettes" | "basket" | "baskets" | "schalchen" | "cestino" | "cestini" | "bandeja" | "bandejas",
    Carton = "carton" | "cartons" | "brique" | "briques" | "brik" | "cartone" | "cartoni",
    Block = "block" | "blocks" | "bloc" | "blocs" | "bloque" | "bloques" | "panetto" | "panetti",
    Cube = "cube" | "cubes" | "wurfel" | "wurfelchen" | "cubo" | "cubos" | "cubito" | "cubitos" | "cubi" | "cubetto" | "cubetti",
    Chunk = "chunk" | "chunks" | "brocken" | "morceau" | "morceaux" | "trozo" | "trozos" | "tocchetto" | "tocchetti",
    Pat = "pat" | "pats",
    Dose = "dose" | "shot" | "doses" | "shots",
    FromKilo = "from a kilo",
    Pinch = "pinch" | "pinches",
    Dash = "dash" | "dashes",
    Drop = "drop" | "drops",
    Millilitre = "ml",
    Teaspoon = "tsp" | "teaspoon" | "teaspoons",
    Tablespoon = "tbsp" | "tablespoon" | "tablespoons",
    FluidOunce = "fl oz" | "fluid ounce" | "fluid ounces",
    Jigger = "jigger" | "jiggers",
    Cup = "cup" | "cups",
}

impl Portion {
    /// Whether it is a spoon of the kitchen, by which what is dry is measured.
    pub(crate) fn is_spoon(self) -> bool {
        matches!(self, Self::Teaspoon | Self::Tablespoon)
    }
}
