namespace PupilBridge.Exchange.Fhir.Codes;

/// <summary>The check digits of codes, which no FHIR validator looks at offline.</summary>
public static class CodeDigits
{
    // Verhoeff J. Error Detecting Decimal Codes. Mathematical Centre Tract 29, Amsterdam 1969: the dihedral group of ten elements and
    // his permutation; SNOMED CT uses them as they are (SNOMED CT Release File Specification, "Check-digit").
    private static readonly int[][] Permutations = MakePermutations();

    /// <summary>
    /// Whether a LOINC code, five digits or more or fewer, a hyphen and a check digit, has the right check digit: mod 10 with every
    /// second digit from the right doubled (Luhn), as the LOINC Users' Guide gives it.
    /// </summary>
    /// <param name="code">Such as <c>8643-9</c>.</param>
    public static bool IsLoinc(string code)
    {
        ArgumentNullException.ThrowIfNull(code);
        var hyphen = code.IndexOf('-', StringComparison.Ordinal);
        if (hyphen < 1 || hyphen != code.Length - 2 || !code.Remove(hyphen, 1).All(char.IsAsciiDigit))
        {
            return false;
        }

        var sum = 0;
        for (var i = 0; i < hyphen; i++)
        {
            var digit = code[hyphen - 1 - i] - '0';
            var weighted = i % 2 == 0 ? 2 * digit : digit;
            sum += (weighted / 10) + (weighted % 10);
        }

        return (sum + code[^1] - '0') % 10 == 0;
    }

    /// <summary>Whether a SNOMED CT identifier, 6 to 18 digits without a leading zero, has the right check digit (Verhoeff).</summary>
    /// <param name="code">Such as <c>52378001</c>.</param>
    public static bool IsSnomed(string code)
    {
        ArgumentNullException.ThrowIfNull(code);
        if (code.Length is < 6 or > 18 || code[0] == '0' || !code.All(char.IsAsciiDigit))
        {
            return false;
        }

        var check = 0;
        for (var i = 0; i < code.Length; i++)
        {
            check = Multiply(check, Permutations[i % 8][code[code.Length - 1 - i] - '0']);
        }

        return check == 0;
    }

    // 0 to 4 turn a pentagon, 5 to 9 turn and flip it.
    private static int Multiply(int a, int b) =>
        (a < 5, b < 5) switch
        {
            (true, true) => (a + b) % 5,
            (true, false) => 5 + ((a + b) % 5),
            (false, true) => 5 + ((a - b) % 5),
            (false, false) => (a - b + 5) % 5,
        };

    private static int[][] MakePermutations()
    {
        int[] step = [1, 5, 7, 6, 2, 8, 3, 0, 9, 4];
        var all = new int[8][];
        all[0] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];
        for (var i = 1; i < all.Length; i++)
        {
            all[i] = [.. all[i - 1].Select(digit => step[digit])];
        }

        return all;
    }
}
