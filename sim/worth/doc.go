// Package worth turns the two twins into a decision: the crop's seasons with and
// without tile, what each loses and to what, what that is worth, what the tile
// costs, and the chance that it pays. It knows nothing of pages.
package worth
