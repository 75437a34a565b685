using System.Text;

namespace PupilBridge.Exchange.Tests.Tables;

/// <summary>
/// A reader of its own for what RFC 4180, section 2 says: fields with commas between, lines that end with CRLF, quotation marks around
/// a field and doubled within one. What breaks that is refused.
/// </summary>
internal static class PlainCsv
{
    public static List<Dictionary<string, string>> Rows(byte[] file)
    {
        var lines = Lines(new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(file));
        return
        [
            .. lines
                .Skip(1)
                .Select(line =>
                {
                    Assert.Equal(lines[0].Count, line.Count);
                    return lines[0].Zip(line).ToDictionary(pair => pair.First, pair => pair.Second);
                }),
        ];
    }

    private static List<List<string>> Lines(string text)
    {
        var lines = new List<List<string>>();
        var line = new List<string>();
        var at = 0;
        while (at < text.Length)
        {
            line.Add(text[at] == '"' ? Quoted(text, ref at) : Bare(text, ref at));
            if (text[at] == ',')
            {
                at++;
                continue;
            }

            Assert.Equal("\r\n", text.Substring(at, 2));
            at += 2;
            lines.Add(line);
            line = [];
        }

        Assert.Empty(line);
        return lines;
    }

    private static string Bare(string text, ref int at)
    {
        var from = at;
        while (text[at] is not (',' or '\r'))
        {
            Assert.NotEqual('"', text[at]);
            at++;
        }

        return text[from..at];
    }

    private static string Quoted(string text, ref int at)
    {
        var field = new StringBuilder();
        for (at++; ; at++)
        {
            if (text[at] != '"')
            {
                field.Append(text[at]);
            }
            else if (at + 1 < text.Length && text[at + 1] == '"')
            {
                field.Append('"');
                at++;
            }
            else
            {
                at++;
                return field.ToString();
            }
        }
    }
}
