package money

import (
	"fmt"
	"slices"
	"strings"
)

// Season is a crop's average price over a marketing year.
type Season struct {
	Year  string  // "2019/20"
	Price float64 // USD/bu
}

// Crop is what is known of the worth of a crop.
type Crop struct {
	Name      string
	Bushel    float64  // mass of a bushel, kg: 56 lb of corn, 60 lb of soybean
	Seasons   []Season // US season-average prices
	Status    Status   // of the prices
	ExtraCost float64  // of an added bushel: nutrients, hauling, drying, USD/bu (assumption)
}

const pound = 0.45359237 // kg

var crops = [...]Crop{
	{"corn", 56 * pound, []Season{{"2019/20", 3.56}, {"2020/21", 4.53}, {"2021/22", 6.00}, {"2022/23", 6.54}, {"2023/24", 4.55}, {"2024/25", 4.24}}, Memory, 0.35},
	{"soybean", 60 * pound, []Season{{"2019/20", 8.57}, {"2020/21", 10.8}, {"2021/22", 13.3}, {"2022/23", 14.2}, {"2023/24", 12.4}, {"2024/25", 10.0}}, Memory, 0.45},
}

// CropNamed finds a crop by its name; the error lists those that there are.
func CropNamed(name string) (Crop, error) {
	wanted := strings.ToLower(strings.TrimSpace(name))
	names := make([]string, len(crops))
	for i, c := range crops {
		if c.Name == wanted {
			c.Seasons = slices.Clone(c.Seasons)
			return c, nil
		}
		names[i] = c.Name
	}
	return Crop{}, fmt.Errorf("money: no price known of crop %q; known: %s; state its price", name, strings.Join(names, ", "))
}

// Price is the range of the crop's season prices, USD/bu: least, median, greatest.
// They are nominal, of years that differ in purchasing power.
func (c Crop) Price() Range {
	prices := make([]float64, len(c.Seasons))
	for i, s := range c.Seasons {
		prices[i] = s.Price
	}
	slices.Sort(prices)
	n := len(prices)
	return Range{Spread: Spread{prices[0], (prices[(n-1)/2] + prices[n/2]) / 2, prices[n-1]},
		Item: "price of " + c.Name, Unit: "USD/bu", Year: c.Seasons[0].Year + " to " + c.Seasons[n-1].Year,
		Place: "United States", Source: "federal season-average price", Status: c.Status}
}
