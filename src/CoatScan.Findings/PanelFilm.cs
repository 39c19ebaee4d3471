namespace CoatScan.Findings;

/// <summary>Film readings of one panel of the vehicle.</summary>
/// <param name="Panel">The caller's name of the panel, 1 to 64 characters.</param>
/// <param name="FilmUm">Film thickness, micrometers, each (0, 10000], at least one.</param>
public sealed record PanelFilm(string Panel, IReadOnlyList<double> FilmUm);
