// Package page writes report.html, the planner's page: one file that opens from disk without a network, with map, longitudinal profiles, tables
// and a panel for each drainage and dam.
//
// # Assumptions
// The browser knows ECMAScript 2020. The picture of the relief covers the grid exactly. What is drawn of a profile may differ from it by 1 cm at the
// bed; the numbers in tables and panels are those of the plan.
//
// # Units
// The page holds SI values and turns them into metric or US units where it shows them, with the factors of package units. Places are metres of the
// grid. Sentences keep the units that the plan wrote them in.
//
// # Limits
// Pictures of the relief over 2,400 pixels a side are made smaller. Longitude and latitude under the pointer come from polynomials fitted over the
// grid, true to 1e-6 degrees on grids up to some 50 km a side.
//
// # Sources
// The libraries in the page, with version and licence, are listed in assets/vendor.
package page
