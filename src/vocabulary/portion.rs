//! The words by which an ingredient is counted or heaped: what one of them weighs stands in the larder.

super::words! {
    /// What one counts or heaps of an ingredient. What is singular and of its own kind ("berry", "star", "kernel") is
    /// a piece: of one ingredient only one of them is counted.
    Portion, "portion":
    Piece = "piece" | "each" | "berry" | "corn" | "star" | "nut" | "kernel" | "bean" | "flower" | "blade" | "fruit"
        | "pepper" | "olive" | "root" | "ball" | "pieces" | "berries" | "corns" | "stars" | "nuts" | "kernels" | "beans"
        | "flowers" | "blades" | "fruits" | "peppers" | "olives" | "roots" | "balls",
    Small = "small",
    Medium = "medium",
    Large = "large",
    ExtraLarge = "extra large" | "extra-large",
    Juice = "juice",
    JuiceOfWedge = "juice of a wedge",
    Zest = "zest",
    Peel = "peel",
    Seeds = "seeds",
    Twist = "twist" | "coin" | "twists" | "coins",
    Wheel = "wheel" | "wheels",
    Slice = "slice" | "rasher" | "slices" | "rashers",
    Wedge = "wedge" | "wedges",
    Half = "half" | "halves",
    Leaf = "leaf" | "leaves" | "sheet" | "sheets",
    Sprig = "sprig" | "sprigs",
    Bunch = "bunch" | "bunches",
    Handful = "handful" | "handfuls",
    Stick = "stick" | "quill" | "spear" | "sticks" | "quills" | "spears",
    Pod = "pod" | "pods",
    Clove = "clove" | "cloves",
    Stalk = "stalk" | "stem" | "stalks" | "stems",
    Head = "head" | "bulb" | "heads" | "bulbs",
    Thumb = "thumb" | "finger" | "knob" | "thumbs" | "fingers" | "knobs",
    Bag = "bag" | "bags",
    Packet = "packet" | "sachet" | "box" | "packets" | "sachets" | "boxes",
    Can = "can" | "tin" | "cans" | "tins",
    Cube = "cube" | "cubes",
    Pat = "pat" | "pats",
    Dose = "dose" | "shot" | "doses" | "shots",
    FromKilo = "from a kilo",
    Pinch = "pinch" | "pinches",
    Dash = "dash" | "dashes",
    Drop = "drop" | "drops",
    Teaspoon = "tsp" | "teaspoon" | "teaspoons",
    Tablespoon = "tbsp" | "tablespoon" | "tablespoons",
    FluidOunce = "fl oz" | "fluid ounce" | "fluid ounces",
    Jigger = "jigger" | "jiggers",
    Cup = "cup" | "cups",
}
