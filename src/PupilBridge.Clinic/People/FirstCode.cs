using System.Security.Cryptography;
using System.Text;

namespace PupilBridge.Clinic.People;

/// <summary>
/// The one-time code by which the first administrator shows that they stand at the machine: twelve letters in groups of four, about
/// 54 bits. Letters that look like digits or each other are left out; capitals, blanks and hyphens do not matter when it is typed.
/// </summary>
internal sealed class FirstCode
{
    private const string Letters = "ABCDEFGHJKMNPQRSTUVWXYZ";
    private const int Length = 12;
    private const int Group = 4;

    private readonly byte[] bare;

    private FirstCode(string text)
    {
        Text = text;
        bare = Bare(text);
    }

    /// <summary>The code as it is shown.</summary>
    public string Text { get; }

    /// <summary>Draws a code.</summary>
    /// <param name="random">The source of chance.</param>
    public static FirstCode Draw(RandomNumberGenerator random)
    {
        var text = new StringBuilder();
        var one = new byte[1];
        // Bytes beyond the last whole multiple are thrown away: no letter is likelier than another.
        var bound = byte.MaxValue + 1 - ((byte.MaxValue + 1) % Letters.Length);
        for (var drawn = 0; drawn < Length; )
        {
            random.GetBytes(one);
            if (one[0] < bound)
            {
                text.Append(drawn > 0 && drawn % Group == 0 ? "-" : "").Append(Letters[one[0] % Letters.Length]);
                drawn++;
            }
        }

        return new FirstCode(text.ToString());
    }

    /// <summary>Whether a text is this code; the time taken does not tell how much of it was right.</summary>
    public bool Is(string typed) => CryptographicOperations.FixedTimeEquals(Bare(typed), bare);

    private static byte[] Bare(string text) =>
        Encoding.UTF8.GetBytes(string.Concat(text.Where(char.IsLetterOrDigit)).ToUpperInvariant());
}
