// Package erosion judges how far a drainage has cut into the land, how fast that may go on, and
// which drainage is worse than which.
//
// Survey and Measure tell how deep the bed lies below the land, Headcuts finds the steps in it,
// PowerAt tells what storm water can do to it, and Rank weighs all of that.
//
// # Assumptions
// Incision is told in two ways: by the banks of cross-sections, and by the black top-hat, which fills all that is narrower than its window,
// less what the form of the valley adds, which is read from the ground beside the banks. Sections go first.
//
// The mouth of a tributary, between the banks of the drainage it joins, is that drainage's cut, and
// where water falls over the bank there is no headcut.
//
// The severity is the mean of up to five scores, weighted: mean incision, height of headcuts per 100 m
// of bed that is seen, shear of a storm over what the bed bears, middle slope of the banks along what is
// incised, and share of the length that is incised. Steps at roads and stock ponds are no headcuts. A
// part that was not measured drops out and the weights of the others are scaled up; where there is
// no bank, its slope counts as zero. A mean over a long drainage hides what is cut in one place: with a piece of 30 m or more that is cut
// deep or has a headcut a drainage is watch at least. Limits and weights are this project's judgement, as are the classes: no
// published weighting was found.
//
// A rank is as firm as the share of draws in which the drainage is among the first ten: 200 draws of
// all weights, each from half to one and a half of itself, and of all measurements within their errors, by a PCG
// generator with the seeds 10 and 200.
//
// # Units
// Metres, m², slope and bank slope as rise over run, shear in Pa, power in W/m², severity from 0 to 100.
//
// # Limits
// Errors of measurements are first-order and hang on the noise of single cells alone: brush taken for
// ground, say, is not seen. Catchment, land use and soil do not count in the severity, and it
// tells how worn a drainage is, not how fast it wears: that needs a second survey. A headcut counts by
// the length it stands in, at least 100 m, so the same step weighs more in a short drainage. A cut narrower than
// three cells or wider than the window is told too shallow or not at all, and over cells of more than half the window nothing is
// told without cross-sections. Over cells of 2 m a headcut cannot be told from a ramp of 4 m, and over larger ones hardly any is seen.
//
// # Sources
// Keys of hydro.Source: Wilkinson2015, Yochum2014, FortierScobey1926, Fischenich2001, TorriPoesen2014,
// Vandaele1996, PerronRoyden2013, Flint1974, Serra1982, VanHerk1992, GilWerman1993, Theil1950, Sen1968.
package erosion
