"""What a food is, as far as its safety goes: of which animal, raw or not, minced, an egg, garlic, a curing salt.

Foods of the table are told by their group, everything else by its name. What no word says to be cooked or ready to eat
is taken for raw.
"""

import re
from collections.abc import Mapping
from types import MappingProxyType

from solver.cautions.facts import Content
from solver.cooking_kinds import is_pumped

POULTRY, MEAT, GAME, OFFAL, HAM = "poultry", "meat", "game", "offal", "ham"
FISH, CRUSTACEAN, MOLLUSC, EGG = "fish", "crustacean", "mollusc", "egg"

#: Groups of the food table that are animals throughout. Ostrich and emu stand in the table's poultry and are
#: treated as such, which is the safe side.
_GROUPS: Mapping[str, str] = MappingProxyType(
    {
        "Beef Products": MEAT,
        "Pork Products": MEAT,
        "Lamb, Veal, and Game Products": MEAT,
        "Sausages and Luncheon Meats": MEAT,
        "Poultry Products": POULTRY,
        "Finfish and Shellfish Products": FISH,
        "Dairy and Egg Products": "",
    }
)

#: The group whose foods are told by their names, as those of labels are.
_BY_NAME = "American Indian/Alaska Native Foods"

_BISON = re.compile(r"\b(bison|beefalo)\b")
_POULTRY = re.compile(
    r"\b(chickens?|turkeys?|ducks?|ducklings?|goose|geese|poultry|quails?|pheasants?|hens?|squabs?)\b"
)
_GAME = re.compile(
    r"\b(rabbit|hare|venison|deer|elk|moose|caribou|reindeer|antelope|boar|bear|squirrel|game|whale|seal|walrus)\b"
)
_OFFAL = re.compile(
    r"\b(variety meats|liver|hearts?|kidneys?|tongue|brains?|gizzards?|giblets?|tripe|sweetbreads?|thymus|pancreas"
    r"|spleen|lungs?)\b"
)
_MEAT = re.compile(
    r"\b(beef|pork|lamb|mutton|veal|bison|buffalo|goat|steaks?|mince|minced meat|bacon|pancetta|guanciale|sausages?"
    r"|chorizo|bratwurst|burgers?|patty|patties|meat|meatballs?|cutlets?|spare ?ribs)\b"
)
_FISH = re.compile(
    r"\b(fish|salmon|trout|cod|tuna|mackerel|herring|sardines?|haddock|halibut|anchov(y|ies)|eel|bass|char|roe)\b"
)
_CRUSTACEAN = re.compile(r"\b(crustaceans?|shrimps?|prawns?|crabs?|lobsters?|crayfish|langoustines?)\b")
_MOLLUSC = re.compile(r"\b(mollus[ck]s?|clams?|oysters?|mussels?|scallops?|squid|octopus|cuttlefish|snails?|whelks?)\b")
_EGG = re.compile(r"\b(eggs?|yolks?)\b")
_BIRDS_EGG = re.compile(
    r"\b(chicken|hen|duck|goose|quail|turkey)('?s)? (eggs?|yolks?)\b|\beggs?, (duck|goose|quail|turkey)\b"
)
_HAM = re.compile(r"\bhams?\b")

#: What is none of an animal's flesh though its name stands before it, as in "duck fat", "fish sauce", "egg noodles".
_AFTER = (
    r"stocks?|broths?|bouillon|fond|fat|tallow|lard|schmaltz|suet|drippings?|gelatine?s?|collagen|seasoning|spices?"
    r"|flavou?r(ing)?|sauces?|oils?|noodles|milk|butter|cheese|buns?|replacer|substitute|cracklings?|scratchings?|rinds?"
    r"|skins|mushrooms?|tomato(es)?|beans?|powder"
)
_NO_FLESH = re.compile(
    r"\b(beef|pork|lamb|mutton|veal|goat|meat|steak|burger|bone|chicken|turkey|duck|goose|poultry|fish|cod liver|cod"
    rf"|salmon|shrimp|crab|lobster|oyster|clam|egg|yolk|ham|bacon|kidney)('s)? ({_AFTER})\b"
    r"|\b(stock|broth|bouillon|fat|tallow|lard|seasoning|sauce|oil|milk|cheese),? (of |from )?(beef|pork|lamb|mutton"
    r"|chicken|turkey|duck|goose|fish|oyster|goat|salmon)\b"
    r"|\b(artichoke|palm|celery|romaine|lettuce) hearts?\b|\bhearts? of (palm|romaine)\b|\b(coco)?nut meats?\b"
    r"|\b(veggie|vegetable|vegetarian|vegan|soya?|tofu|plant-based|meatless) (burgers?|patty|patties|sausages?|mince"
    r"|meatballs?|bacon|meat)\b"
)

#: Words that say that something is raw; "unheated" alone stands at what its maker cooked.
_RAW = re.compile(r"\b(raw|unprepared|uncooked)\b")

_COOKED = re.compile(
    r"\b(pre)?-?(cooked|roasted|broiled|braised|fried|baked|grilled|stewed|simmered|boiled|poached|steamed|microwaved"
    r"|scrambled|omelette?|rotisserie|barbecued|heated)\b|\bunheated\b"
)

_READY = re.compile(
    r"\b(canned|smoked|dried|pickled|salami|pepperoni|bologna|luncheon|pates?|pâtés?|prosciutto|serrano|air-dried"
    r"|dry-cured|caviar|freeze-dried|kippered|surimi|prepared|frankfurters?|mortadella)\b"
)

_MINCED = re.compile(
    r"\b(ground|minced?|sausages?|burgers?|patty|patties|meatballs?|bratwurst|bockwurst|chorizo|links)\b"
)

_PASTEURISED = re.compile(r"\bpasteuri[sz]ed\b")

#: Alliums and leaves that bring spores and water into fat. Dried ones are dry, and pickles are sour.
_AROMATIC = re.compile(
    r"\b(garlic|ramps?|shallots?|onions?|chives?|scallions?|basil|parsley|thyme|rosemary|sage|oregano|tarragon|dill|mint"
    r"|coriander|cilantro|chervil|bay lea(f|ves)|herbs?|chill?i(es|s)?)\b"
)
_DRY = re.compile(
    r"(?<!sun-)(?<!sun )\bdried\b|\bpowder(ed)?\b|\bdry mix\b|\b(garlic|onion|herb|celery) salt\b|\bgranulated\b"
    r"|\bdehydrated\b|\bspices,|\bseeds?\b(?! oil)|\bpickle[sd]?\b|\bcanned\b"
)
_PLANT_GROUPS = frozenset({None, "Spices and Herbs", "Vegetables and Vegetable Products"})

_CURING = re.compile(
    r"\bcuring salts?\b|\bpink salt\b|\bnitrites?\b|\bnitrates?\b|\bsaltpet(er|re)\b|\bcure (#|no\.?) ?[12]\b"
)
_NO_CURING = re.compile(r"himalaya|(no|without|free of|free from) (added )?nitr|nitr[ai]tes?-free|uncured")

_BRINED = re.compile(r"\b(pumped|injected|brined|self-basting|water added|added water)\b")

_LIVER = re.compile(r"\bliver(wurst|s)?\b|foie gras|braunschweiger|cod liver")


def animal(content: Content) -> str | None:
    """The animal, or the kind of flesh, that decides; None for what is no flesh and no egg."""
    words, group = content.words, content.food.group
    if group is not None and group in _GROUPS:
        return _of_group(content.food.name.lower(), _GROUPS[group])
    if group not in {None, _BY_NAME}:
        return None
    return _of_words(_NO_FLESH.sub(" ", words))


def _of_group(name: str, kind: str) -> str | None:
    if not kind:
        return EGG if re.match(r"eggs?, ", name) else None
    if kind == FISH:
        return _shellfish(name) or FISH
    if kind == POULTRY or _POULTRY.search(name):
        return POULTRY
    return _of_mammal(name)


def _of_words(words: str) -> str | None:
    if _POULTRY.search(_BIRDS_EGG.sub(" ", words)):
        return POULTRY
    if _EGG.search(words):
        return EGG
    found = _shellfish(words) or (FISH if _FISH.search(words) else None)
    if found or not (_MEAT.search(words) or _GAME.search(words) or _OFFAL.search(words) or _HAM.search(words)):
        return found
    return _of_mammal(words)


def _of_mammal(name: str) -> str:
    if _OFFAL.search(name):
        return OFFAL
    if _GAME.search(name) and not _BISON.search(name):
        return GAME
    return HAM if _HAM.search(name) and "fresh" not in name and not is_minced_name(name) else MEAT


def _shellfish(name: str) -> str | None:
    if _CRUSTACEAN.search(name):
        return CRUSTACEAN
    return MOLLUSC if _MOLLUSC.search(name) else None


def is_raw(content: Content) -> bool:
    """Whether flesh or an egg comes in raw, or nothing says that it does not."""
    if content.cooked:
        return False
    if _RAW.search(content.words):
        return True
    told = _COOKED.search(content.words) or _READY.search(content.words)
    return told is None and content.food.group != "Sausages and Luncheon Meats"


def is_precooked(content: Content) -> bool:
    """Whether flesh was cooked before."""
    return not is_raw(content) and (content.cooked or _COOKED.search(content.words) is not None)


def is_minced_name(name: str) -> bool:
    """Whether a name, in lower case, says that meat is minced."""
    return _MINCED.search(name) is not None


def is_raw_egg(content: Content) -> bool:
    """Whether it is raw egg that nobody says to be pasteurised."""
    return animal(content) == EGG and is_raw(content) and not _PASTEURISED.search(content.words)


def is_aromatic(content: Content) -> bool:
    """Whether it is, or holds, garlic, another allium, chilli or a herb that is not said to be dry or pickled."""
    if content.food.group not in _PLANT_GROUPS:
        return False
    return _AROMATIC.search(content.words) is not None and _DRY.search(content.words) is None


def is_brined(content: Content) -> bool:
    """Whether brine went into the flesh, as its name says."""
    return is_pumped(content.words) or _BRINED.search(content.words) is not None


def is_curing_salt(content: Content) -> bool:
    """Whether it is a curing salt, nitrite or nitrate in salt, and not what was cured with it."""
    named = _CURING.search(content.words) is not None and _NO_CURING.search(content.words) is None
    return named and animal(content) is None


def is_liver(content: Content) -> bool:
    """Whether it is liver, made of liver, or the oil of one."""
    return _LIVER.search(content.words) is not None
