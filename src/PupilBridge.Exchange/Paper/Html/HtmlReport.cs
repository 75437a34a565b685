using System.Net;
using System.Security.Cryptography;
using System.Text;
using PupilBridge.Clinic.Text;
using PupilBridge.Exchange.Paper.Plots;

namespace PupilBridge.Exchange.Paper.Html;

/// <summary>
/// A report as one HTML file that needs nothing beside it: no script, its style within, the plot as vectors. Printed, it takes the sheet
/// that it was made for; <see cref="PrintStyle"/> says in which letters.
/// </summary>
public static class HtmlReport
{
    /// <summary>From this length on a value takes a row of its own on paper, as a hash does.</summary>
    private const int LongFact = 56;

    /// <summary>Up to this length a cell beside numbers stands in one line; a date with its time is 19.</summary>
    private const int ShortCell = 20;

    /// <summary>
    /// What a browser may do with such a page when it is served: apply exactly its own style, and nothing else. No place in it can run
    /// anything, whatever people wrote into a remark.
    /// </summary>
    /// <param name="paper">The sheet that the page was made for.</param>
    public static string ContentSecurityPolicy(ReportPaper paper) => Policy(PrintStyle.Of(paper));

    /// <summary>The same for a report whose own words stand in its style, as those of several sheets and those with a stamp do.</summary>
    /// <param name="report">The report.</param>
    /// <param name="paper">The sheet that the page was made for.</param>
    public static string ContentSecurityPolicy(ReportDocument report, ReportPaper paper)
    {
        ArgumentNullException.ThrowIfNull(report);
        return Policy(PrintStyle.Of(report, paper));
    }

    /// <summary>Writes a report.</summary>
    /// <param name="report">The report.</param>
    /// <param name="paper">The sheet for which it is printed.</param>
    /// <returns>An HTML document.</returns>
    public static string Write(ReportDocument report, ReportPaper paper)
    {
        ArgumentNullException.ThrowIfNull(report);
        var html = new StringBuilder(32_768);
        html.Append("<!doctype html>\n<html lang=\"").Append(HouseLanguage.Current).Append("\">\n<head>\n");
        html.Append("<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n");
        html.Append(
            $"<title>{Safe(report.Title)}: {Safe(report.Running)}</title>\n<style>{PrintStyle.Of(report, paper)}</style>\n</head>\n"
        );
        html.Append(
            $"<body class=\"{PrintStyle.ClassOf(report, paper)}\">\n<main>\n<h1>{Safe(report.Title)}</h1>\n<p class=\"running\">{Safe(report.Running)}</p>\n"
        );
        foreach (var mark in report.Marks)
        {
            html.Append($"<p class=\"mark{(mark.IsWarning ? " warning" : "")}\"><strong>{Safe(mark.Word)}</strong> ");
            html.Append($"{Safe(mark.Words)}</p>\n");
        }

        for (var n = 0; n < report.Sections.Count; n++)
        {
            // Sections that may stand in columns and follow each other share them.
            if (IsInColumns(n) && !IsInColumns(n - 1))
                html.Append("<div class=\"columns\">\n");
            Section(html, report.Sections[n], n);
            if (IsInColumns(n) && !IsInColumns(n + 1))
                html.Append("</div>\n");
        }

        html.Append($"<p class=\"caution\">{Safe(report.Caution)}</p>\n</main>\n</body>\n</html>\n");
        return html.ToString();

        bool IsInColumns(int n) => n >= 0 && n < report.Sections.Count && report.Sections[n].StandsInColumns;
    }

    private static string Policy(string style) =>
        $"default-src 'none'; style-src 'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(style)))}'; "
        + "base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

    private static void Section(StringBuilder html, ReportSection section, int number)
    {
        html.Append(
            $"<section aria-labelledby=\"section-{number}\">\n<h2 id=\"section-{number}\">{Safe(section.Title)}</h2>\n"
        );
        foreach (var part in section.Parts)
            Part(html, part);
        html.Append("</section>\n");
    }

    private static void Part(StringBuilder html, ReportPart part)
    {
        switch (part)
        {
            case ReportFacts facts:
                html.Append("<dl>\n");
                foreach (var row in facts.Rows)
                    html.Append(
                        $"<div{(row.Value.Length > LongFact ? " class=\"long\"" : "")}><dt>{Safe(row.Name)}</dt><dd>{Safe(row.Value)}</dd></div>\n"
                    );
                html.Append("</dl>\n");
                break;
            case ReportTable table:
                Table(html, table);
                break;
            case ReportList list:
                List(html, list);
                break;
            case ReportNotes notes:
                html.Append("<ol class=\"notes\">\n");
                foreach (var note in notes.Notes)
                    html.Append($"<li>{Safe(note)}</li>\n");
                html.Append("</ol>\n");
                break;
            case ReportFigure figure:
                html.Append("<figure>\n").Append(PlotSvg.Draw(figure.Plot, figure.Alternative)).Append("</figure>\n");
                break;
            case ReportText paragraph:
                html.Append($"<p{(paragraph.IsSmall ? " class=\"beside\"" : "")}>{Safe(paragraph.Text)}</p>\n");
                break;
            default:
                throw new ArgumentException($"{part.GetType().Name} is no known part of a report.", nameof(part));
        }
    }

    private static void Table(StringBuilder html, ReportTable table)
    {
        string[] looks = [.. TableLooks(table)];
        html.Append($"<table{(looks.Length > 0 ? $" class=\"{string.Join(' ', looks)}\"" : "")}>\n");
        html.Append($"<caption>{Safe(table.Caption)}</caption>\n<thead><tr>");
        for (var n = 0; n < table.Heads.Count; n++)
            html.Append($"<th scope=\"col\"{Class(n)}>{Safe(table.Heads[n])}</th>");
        html.Append("</tr></thead>\n<tbody>\n");
        foreach (var row in table.Rows)
        {
            html.Append($"<tr><th scope=\"row\"{Class(0)}>{Safe(row[0])}</th>");
            for (var n = 1; n < row.Count; n++)
                html.Append($"<td{Class(n, row[n])}>{Safe(row[n])}</td>");
            html.Append("</tr>\n");
        }

        html.Append("</tbody>\n</table>\n");

        // Beside numbers that are compared down their column, a short cell that wraps would double the height of its row.
        string Class(int column, string? cell = null) =>
            table.NumberColumns.Contains(column) ? " class=\"number\""
            : table.NumberColumns.Count > 0 && cell?.Length <= ShortCell ? " class=\"short\""
            : "";
    }

    private static IEnumerable<string> TableLooks(ReportTable table)
    {
        if (table.IsSmall)
            yield return "small";
        if (table.StaysWhole)
            yield return "whole";
        if (table.Shares.Sum() < 0.95)
            yield return "narrow";
    }

    private static void List(StringBuilder html, ReportList list)
    {
        if (list.Head.Length > 0)
            html.Append($"<h3>{Safe(list.Head)}</h3>\n");
        html.Append("<ul>\n");
        foreach (var item in list.Items)
        {
            html.Append($"<li>{Safe(item.Text)}");
            if (item.Beside.Length > 0)
                html.Append($" <span class=\"beside\">{Safe(item.Beside)}</span>");
            html.Append("</li>\n");
        }

        html.Append("</ul>\n");
    }

    private static string Safe(string text) => WebUtility.HtmlEncode(VisibleText.Of(text));
}
