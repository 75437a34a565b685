using System.Globalization;
using System.Text;

namespace PupilBridge.Exchange.Hl7v2;

/// <summary>Segments of a message, one after the other.</summary>
internal sealed class Hl7Segments
{
    private readonly StringBuilder text = new();

    /// <summary>Adds a segment.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="fields">Field number, from 1, and its value, escaped already; what is not named is empty.</param>
    public void Add(string name, params (int Number, string? Value)[] fields)
    {
        var byNumber = fields.Where(f => !string.IsNullOrEmpty(f.Value)).ToDictionary(f => f.Number, f => f.Value);
        text.Append(name);
        for (var i = 1; i <= byNumber.Keys.DefaultIfEmpty(0).Max(); i++)
        {
            // The first field of the header is the separator itself.
            if (name != "MSH" || i > 1)
            {
                text.Append('|').Append(byNumber.GetValueOrDefault(i));
            }
        }

        text.Append(Hl7Text.SegmentEnd);
    }

    public static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    /// <inheritdoc/>
    public override string ToString() => text.ToString();
}
