"""What rendered fat holds. Two paths count with it, arrays in `as_eaten` and plain numbers in `used`."""

#: What leaves with rendered fat in proportion to it.
FATTY_ACIDS = ("saturated_fat_g", "monounsaturated_fat_g", "polyunsaturated_fat_g", "trans_fat_g")

#: Most cholesterol in 1 g of rendered fat, mg: that of beef tallow (USDA SR28, 04001); lard and poultry fat hold less.
CHOLESTEROL_MG_PER_G_FAT = 1.09
