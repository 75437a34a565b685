using PupilBridge.Exchange.Paper.Plots;

namespace PupilBridge.Exchange.Paper;

/// <summary>
/// What a report or certificate says, in the order in which it says it. Page, paper and text are made of this and of nothing else, so that they never
/// differ in what they say.
/// </summary>
public sealed record ReportDocument
{
    /// <summary>What it is, with its number.</summary>
    public required string Title { get; init; }

    /// <summary>What it is about (patient, exam and version; instrument), in one short line: it stands on every sheet.</summary>
    public required string Running { get; init; }

    /// <summary>
    /// When what it says came to be so: when it was signed or issued, or for a draft when the exam or run ended or began. Files bear it as
    /// their date, so that the same report is always the same file.
    /// </summary>
    public required DateTimeOffset Dated { get; init; }

    /// <summary>What must be seen first: draft, superseded, set aside, uncalibrated, not complete.</summary>
    public required IReadOnlyList<ReportMark> Marks { get; init; }

    /// <summary>The sections.</summary>
    public required IReadOnlyList<ReportSection> Sections { get; init; }

    /// <summary>The caution that ends it.</summary>
    public required string Caution { get; init; }

    /// <summary>Whether it takes several sheets by its nature; otherwise one sheet is tried for, in ever smaller letters.</summary>
    public bool IsLong { get; init; }

    /// <summary>A word or two across every sheet, so that none is taken for what it is not; null for none.</summary>
    public string? Stamp { get; init; }
}

/// <summary>Something that must be seen before anything else is read.</summary>
/// <param name="Word">What, in a word or two.</param>
/// <param name="Words">What it means.</param>
/// <param name="IsWarning">Whether what is below must not be taken at its face.</param>
public sealed record ReportMark(string Word, string Words, bool IsWarning);

/// <summary>A section.</summary>
/// <param name="Title">Its title.</param>
/// <param name="Parts">What stands in it.</param>
public sealed record ReportSection(string Title, IReadOnlyList<ReportPart> Parts)
{
    /// <summary>Whether its parts are read one after the other in lines of any length, so that they may stand in two columns.</summary>
    public bool StandsInColumns { get; init; }
}

/// <summary>Something that stands in a section.</summary>
public abstract record ReportPart;

/// <summary>Names with values, short enough to stand side by side.</summary>
/// <param name="Rows">The names and values.</param>
public sealed record ReportFacts(IReadOnlyList<ReportFact> Rows) : ReportPart;

/// <summary>A name with its value.</summary>
/// <param name="Name">The name.</param>
/// <param name="Value">The value.</param>
public sealed record ReportFact(string Name, string Value);

/// <summary>A table; the first cell of each row is the row's head.</summary>
/// <param name="Caption">What it shows.</param>
/// <param name="Heads">The heads of the columns.</param>
/// <param name="Shares">What part of the width each column takes.</param>
/// <param name="Rows">The rows.</param>
public sealed record ReportTable(
    string Caption,
    IReadOnlyList<string> Heads,
    IReadOnlyList<double> Shares,
    IReadOnlyList<IReadOnlyList<string>> Rows
) : ReportPart
{
    /// <summary>Whether it stands in smaller letters.</summary>
    public bool IsSmall { get; init; }

    /// <summary>Whether it is small enough to stand on one sheet whole, however much room that leaves on the sheet before.</summary>
    public bool StaysWhole { get; init; }

    /// <summary>Which columns hold numbers that are compared down the column, by their place from 0; they end at the right edge.</summary>
    public IReadOnlyList<int> NumberColumns { get; init; } = [];
}

/// <summary>A list under a head of its own.</summary>
/// <param name="Head">What the list is of.</param>
/// <param name="Items">The items.</param>
public sealed record ReportList(string Head, IReadOnlyList<ReportItem> Items) : ReportPart;

/// <summary>One item of a list.</summary>
/// <param name="Text">What it says.</param>
/// <param name="Beside">What belongs to it, in smaller letters; may be empty.</param>
public sealed record ReportItem(string Text, string Beside);

/// <summary>Notes by number, to which other parts point as <c>[1]</c>; in smaller letters.</summary>
/// <param name="Notes">The notes; the first is number 1.</param>
public sealed record ReportNotes(IReadOnlyList<string> Notes) : ReportPart;

/// <summary>A paragraph.</summary>
/// <param name="Text">What it says.</param>
public sealed record ReportText(string Text) : ReportPart
{
    /// <summary>Whether it stands in smaller letters.</summary>
    public bool IsSmall { get; init; }
}

/// <summary>A plot.</summary>
/// <param name="Plot">What it shows.</param>
/// <param name="Alternative">The same in words, for whoever does not see it.</param>
public sealed record ReportFigure(PlotDrawing Plot, string Alternative) : ReportPart;
