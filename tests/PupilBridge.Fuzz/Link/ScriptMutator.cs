using System.Buffers.Text;
using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz.Link;

/// <summary>Puts something that happens between the lines of a script.</summary>
internal static class ScriptMutator
{
    /// <summary>Puts one in.</summary>
    /// <param name="script">The script; its whole length may be used.</param>
    /// <param name="length">How long it is.</param>
    /// <param name="acts">The letters from which one is drawn.</param>
    /// <param name="dice">Chance.</param>
    /// <returns>Its new length.</returns>
    public static int PutIn(Span<byte> script, int length, string acts, ref Dice dice)
    {
        Span<byte> made = stackalloc byte[12];
        made[0] = (byte)'!';
        made[1] = (byte)acts[dice.Below(acts.Length)];
        made[2] = (byte)' ';
        Utf8Formatter.TryFormat(
            dice.Any<int>([0, 1, 2, 3, 7, 40, 100, 500, 999, 1000, 1100, 3000, 10_000, 60_000]),
            made[3..],
            out var digits
        );
        made[3 + digits] = 10;
        var act = made[..(4 + digits)];
        if (length + act.Length > script.Length)
            return length;
        var at = script[..dice.Below(length + 1)].LastIndexOf((byte)10) + 1;
        script[at..length].CopyTo(script[(at + act.Length)..]);
        act.CopyTo(script[at..]);
        return length + act.Length;
    }
}
