package cli

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/units"
	"siltstep/hydro"
)

// budgetFlags are those that limit a plan to what can be paid for, carried or worked.
func budgetFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "budget", Usage: "`AMOUNT` for each year that picks the best series: money, such as 20000; rock, such as \"300 t\"; or work, such as \"40 days\""},
		&cli.StringFlag{Name: "years", Value: "1", Usage: fmt.Sprintf("number of `YEARS` with that budget, 1 to %d", hydro.MostBudgetYears)},
	}
}

// readBudget reads the flags. prices are those of the settings: without them neither money nor days can be told of a dam. Errors are of the
// request.
func readBudget(ctx *cli.Context, prices hydro.Prices) (hydro.Budget, error) {
	if !ctx.IsSet("budget") {
		if ctx.IsSet("years") {
			return hydro.Budget{}, requestf("--years parts work by a budget; give --budget AMOUNT too, or leave --years out")
		}
		return hydro.Budget{}, nil
	}
	b, err := parseBudget(ctx.String("budget"), prices.Currency)
	if err != nil {
		return hydro.Budget{}, requestf("--budget: %w", err)
	}
	if b.Years, err = strconv.Atoi(ctx.String("years")); err != nil || b.Years < 1 || b.Years > hydro.MostBudgetYears {
		return hydro.Budget{}, requestf("--years %s; allowed is a whole number, 1 to %d", units.Shown(ctx.String("years")), hydro.MostBudgetYears)
	}
	if missing := missingPrices(b.Unit, prices); len(missing) > 0 {
		kind := map[hydro.BudgetUnit]string{hydro.BudgetMoney: "money", hydro.BudgetDays: "days of work"}[b.Unit]
		return hydro.Budget{}, requestf("--budget %s: %s cannot be weighed without %s in the settings; give them with --settings FILE, or a budget of rock, such as \"300 t\"",
			units.Shown(ctx.String("budget")), kind, strings.Join(missing, ", "))
	}
	return b, nil
}

// missingPrices lists the keys of settings that a budget needs and that are not given.
func missingPrices(unit hydro.BudgetUnit, p hydro.Prices) (keys []string) {
	need := func(key string, given float64) {
		if !(given > 0) {
			keys = append(keys, key)
		}
	}
	if unit == hydro.BudgetMoney {
		need("prices.rock", p.RockPerTonne)
		need("prices.day", p.PerDay)
	}
	if unit == hydro.BudgetMoney || unit == hydro.BudgetDays {
		need("prices.days_per_m3", p.DaysPerM3)
	}
	return keys
}

// budgetWords are the words behind the number of a budget, with what one of it is in the unit.
var budgetWords = []struct {
	words []string
	unit  hydro.BudgetUnit
	one   float64
}{
	{[]string{"t", "tonne", "tonnes"}, hydro.BudgetRock, 1},
	{[]string{"ton", "tons", "us ton", "us tons"}, hydro.BudgetRock, units.ShortTonT},
	{[]string{"days", "day", "person-days", "person-day"}, hydro.BudgetDays, 1},
}

// parseBudget reads an amount, more than 0, with the word for what it is: t of rock, US tons of 2,000 lb, days of one person's work. Money stands alone,
// or with the currency before or behind it. Errors are of type *units.Error.
func parseBudget(text, currency string) (hydro.Budget, error) {
	b := hydro.Budget{Unit: hydro.BudgetMoney}
	number, word := parted(text)
	one, known := 1.0, word == "" || strings.EqualFold(word, currency)
	for _, w := range budgetWords {
		if slices.Contains(w.words, strings.Join(strings.Fields(strings.ToLower(word)), " ")) {
			b.Unit, one, known = w.unit, w.one, true
		}
	}
	fault := func(why string) (hydro.Budget, error) { return hydro.Budget{}, &units.Error{Text: text, Why: why} }
	switch {
	case number == "":
		return fault(budgetTakes(currency))
	case strings.ContainsAny(word, ",'") || strings.HasPrefix(word, "."):
		return fault("write decimals with a point and thousands without a separator; " + budgetTakes(currency))
	case !known:
		return fault(fmt.Sprintf("%q is no unit of a budget; %s", word, budgetTakes(currency)))
	}
	x, err := units.ParseNumber(number)
	if err != nil {
		return fault(budgetTakes(currency))
	}
	if b.Amount = x * one; !(b.Amount > 0) {
		return fault("a budget is more than 0; leave --budget out to build all")
	}
	return b, nil
}

// budgetText writes the amount of a budget so that parseBudget reads it back.
func budgetText(b hydro.Budget, currency string) string {
	word := currency
	switch b.Unit {
	case hydro.BudgetRock:
		word = "t"
	case hydro.BudgetDays:
		word = "days"
	}
	return strings.TrimSpace(units.NumberText(b.Amount) + " " + word)
}

// budgetTakes says what a budget may be.
func budgetTakes(currency string) string {
	money := "money is a plain number, such as 20000"
	if currency != "" {
		money += " or 20000 " + currency
	}
	return money + ", rock has t or ton (US, 2,000 lb), work has days, such as 300 t or 40 days"
}

// parted parts a text into a number and the word before or behind it.
func parted(text string) (number, word string) {
	text = strings.TrimSpace(text)
	inNumber := func(r rune) bool { return unicode.IsDigit(r) || r == '.' || r == '-' || r == '+' }
	first := strings.IndexFunc(text, inNumber)
	if first < 0 {
		return "", text
	}
	before, rest := strings.TrimSpace(text[:first]), text[first:]
	end := strings.IndexFunc(rest, func(r rune) bool { return !inNumber(r) })
	if end < 0 {
		return rest, before
	}
	behind := strings.TrimSpace(rest[end:])
	return rest[:end], strings.TrimSpace(before + " " + behind)
}
