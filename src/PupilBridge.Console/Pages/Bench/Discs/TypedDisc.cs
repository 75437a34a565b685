using PupilBridge.Clinic.Entries;
using PupilBridge.Console.Text;

namespace PupilBridge.Console.Pages.Bench.Discs;

/// <summary>One row of the form for a set of discs, as it was typed.</summary>
/// <param name="Row">Which row, from 1.</param>
/// <param name="Name">What is written on the disc.</param>
/// <param name="Diameter">Its diameter, in mm.</param>
/// <param name="Standard">Its standard uncertainty, in mm; empty where the expanded one is given.</param>
/// <param name="Expanded">Its expanded uncertainty, in mm; empty where the standard one is given.</param>
/// <param name="Factor">The coverage factor of the expanded one.</param>
internal sealed record TypedDisc(int Row, string Name, string Diameter, string Standard, string Expanded, string Factor)
{
    /// <summary>The names of a row's fields, without the row's number.</summary>
    public static readonly string[] Fields = ["name", "diameter", "u", "expanded", "k"];

    /// <summary>Whether nothing was typed.</summary>
    public bool IsBlank =>
        new[] { Name, Diameter, Standard, Expanded, Factor }.All(text => string.IsNullOrWhiteSpace(text));

    /// <summary>The name of one of this row's fields.</summary>
    public string Field(string name) => $"{name}-{Row}";

    /// <summary>The disc; what is wrong with a field is noted at it.</summary>
    /// <param name="wrong">Where to note.</param>
    /// <returns>Null if something is wrong.</returns>
    public DiscLine? Read(IDictionary<string, string> wrong)
    {
        var name = Name.Trim();
        if (name.Length == 0)
        {
            wrong[Field("name")] = BenchText.Words["Discs.NameMissing"];
        }

        var diameter = Number("diameter", Diameter, wrong, BenchText.Words["Discs.DiameterMissing"]);
        var uncertainty = Uncertainty(wrong);
        return name.Length > 0 && diameter is { } d && uncertainty is { } u ? new DiscLine(name, d, u) : null;
    }

    private double? Uncertainty(IDictionary<string, string> wrong)
    {
        var hasStandard = !string.IsNullOrWhiteSpace(Standard);
        var hasExpanded = !string.IsNullOrWhiteSpace(Expanded) || !string.IsNullOrWhiteSpace(Factor);
        if (hasStandard && hasExpanded)
        {
            wrong[Field("u")] = BenchText.Words["Discs.BothGiven"];
            return null;
        }

        if (!hasExpanded)
        {
            return Number("u", Standard, wrong, BenchText.Words["Discs.UncertaintyMissing"]);
        }

        var expanded = Number("expanded", Expanded, wrong, BenchText.Words["Discs.ExpandedMissing"]);
        var factor = Number("k", Factor, wrong, BenchText.Words["Discs.FactorMissing"]);
        if (factor is <= 0)
        {
            wrong[Field("k")] = BenchText.Words["Discs.FactorNotAbove"];
            return null;
        }

        return expanded / factor;
    }

    private double? Number(string field, string typed, IDictionary<string, string> wrong, string missing)
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            wrong[Field(field)] = missing;
            return null;
        }

        var number = TypedNumbers.Read(typed);
        if (number is null)
        {
            wrong[Field(field)] = TypedNumbers.WhatIsWrong(typed);
        }

        return number;
    }
}
