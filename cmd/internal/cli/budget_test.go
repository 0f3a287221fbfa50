package cli

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/units"
	"siltstep/hydro"
)

// planBudget reads the flags of a budget from a command line.
func planBudget(prices hydro.Prices, line ...string) (b hydro.Budget, err error) {
	app := &cli.App{Flags: budgetFlags(), Action: func(ctx *cli.Context) error {
		b, err = readBudget(ctx, prices)
		return nil
	}}
	if wrong := app.RunContext(context.Background(), append([]string{"plan"}, line...)); wrong != nil {
		err = wrong
	}
	return b, err
}

func TestBudget(t *testing.T) {
	all := hydro.Prices{Currency: "USD", RockPerTonne: 45, PerDay: 200, DaysPerM3: 1}
	euro := all
	euro.Currency = "€"
	for _, c := range []struct {
		prices hydro.Prices
		line   string
		want   hydro.Budget
	}{
		{hydro.Prices{}, "", hydro.Budget{}},
		{all, "--budget=20000", hydro.Budget{Amount: 20000, Unit: hydro.BudgetMoney, Years: 1}},
		{all, "--budget=20000.50 USD", hydro.Budget{Amount: 20000.5, Unit: hydro.BudgetMoney, Years: 1}},
		{all, "--budget=usd 20000|--years=3", hydro.Budget{Amount: 20000, Unit: hydro.BudgetMoney, Years: 3}},
		{euro, "--budget=€20000", hydro.Budget{Amount: 20000, Unit: hydro.BudgetMoney, Years: 1}},
		{hydro.Prices{}, "--budget=300 t", hydro.Budget{Amount: 300, Unit: hydro.BudgetRock, Years: 1}},
		{hydro.Prices{}, "--budget=300t", hydro.Budget{Amount: 300, Unit: hydro.BudgetRock, Years: 1}},
		// 2,000 lb of 0.45359237 kg (NIST SP 811, 2008) are 0.90718474 t.
		{hydro.Prices{}, "--budget=100 ton", hydro.Budget{Amount: 90.718474, Unit: hydro.BudgetRock, Years: 1}},
		{hydro.Prices{}, "--budget=100 US tons", hydro.Budget{Amount: 90.718474, Unit: hydro.BudgetRock, Years: 1}},
		{hydro.Prices{DaysPerM3: 0.5}, "--budget=40 days", hydro.Budget{Amount: 40, Unit: hydro.BudgetDays, Years: 1}},
		{all, "--budget=1.5 person-days|--years=30", hydro.Budget{Amount: 1.5, Unit: hydro.BudgetDays, Years: 30}},
	} {
		got, err := planBudget(c.prices, words(c.line)...)
		const slack = 1e-9 // relative, of one product
		if err != nil || got.Unit != c.want.Unit || got.Years != c.want.Years || math.Abs(got.Amount-c.want.Amount) > slack*c.want.Amount {
			t.Errorf("%s: %+v, %v, want %+v", c.line, got, err, c.want)
		}
		if !got.Given() {
			continue
		}
		text := budgetText(got, c.prices.Currency)
		if again, err := parseBudget(text, c.prices.Currency); err != nil || again.Amount != got.Amount || again.Unit != got.Unit {
			t.Errorf("%s: written as %q and read as %+v, %v", c.line, text, again, err)
		}
	}
}

// words parts a line at its bars, so that a word may hold blanks.
func words(line string) []string {
	if line == "" {
		return nil
	}
	return strings.Split(line, "|")
}

func TestBudgetRefusesWrongInput(t *testing.T) {
	all := hydro.Prices{Currency: "USD", RockPerTonne: 45, PerDay: 200, DaysPerM3: 1}
	for _, c := range []struct {
		prices     hydro.Prices
		line, want string
	}{
		{all, "--budget=", `--budget: ""; money is a plain number, such as 20000 or 20000 USD, rock has t`},
		{all, "--budget=much", "--budget: much; money is a plain number"},
		{all, "--budget=20,000", "thousands without a separator"},
		{all, "--budget=20 000", "money is a plain number"},
		{all, "--budget=1.2.3", "money is a plain number"},
		{all, "--budget=0", "a budget is more than 0"},
		{all, "--budget=-5 t", "money is a plain number"},
		{all, "--budget=$20000", `"$" is no unit of a budget; money is a plain number, such as 20000 or 20000 USD`},
		{all, "--budget=20000 EUR", `"EUR" is no unit of a budget`},
		{all, "--budget=300 kg", `"kg" is no unit of a budget`},
		{all, "--budget=$20000 USD", `"$ USD" is no unit`},
		{all, "--budget=5 t|--years=0", "--years 0; allowed is a whole number, 1 to 30"},
		{all, "--budget=5 t|--years=31", "--years 31; allowed is a whole number, 1 to 30"},
		{all, "--years=2", "give --budget AMOUNT too"},
		{hydro.Prices{}, "--budget=20000", "money cannot be weighed without prices.rock, prices.day, prices.days_per_m3 in the settings"},
		{hydro.Prices{RockPerTonne: 45, PerDay: 200}, "--budget=20000", "without prices.days_per_m3 in the settings"},
		{hydro.Prices{}, "--budget=40 days", "days of work cannot be weighed without prices.days_per_m3"},
	} {
		b, err := planBudget(c.prices, words(c.line)...)
		var wrong requestError
		if !errors.As(err, &wrong) || !strings.Contains(err.Error(), c.want) || b != (hydro.Budget{}) {
			t.Errorf("%s: %+v, %v, want %q", c.line, b, err, c.want)
		}
	}
}

// Whatever is typed is either refused in words or a finite amount above 0.
func FuzzBudget(f *testing.F) {
	for _, seed := range []string{"20000", "300 t", "40 days", "$20000", "1e9", "", "٣ t", "5 US tons", "-1", "+1", "1.", "."} {
		f.Add(seed, "USD")
	}
	f.Fuzz(func(t *testing.T, text, currency string) {
		b, err := parseBudget(text, currency)
		var said *units.Error
		if err != nil {
			if !errors.As(err, &said) || said.Why == "" || b != (hydro.Budget{}) {
				t.Errorf("%q: %+v, %v", text, b, err)
			}
			return
		}
		if !(b.Amount > 0) || math.IsInf(b.Amount, 1) || !b.Given() {
			t.Errorf("%q: %+v", text, b)
		}
	})
}
