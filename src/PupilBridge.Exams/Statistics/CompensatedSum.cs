namespace PupilBridge.Exams.Statistics;

/// <summary>
/// A sum that keeps what rounding drops, in a second number beside the first (Knuth's two-sum; Ogita, Rump and Oishi,
/// SIAM J Sci Comput 2005;26:1955, for products; from memory). Sums of thousands of readings, and of squares of their
/// deviations, come out as if computed with twice the digits.
/// </summary>
public struct CompensatedSum
{
    private double sum;
    private double dropped;

    /// <summary>The sum so far.</summary>
    public readonly double Value => sum + dropped;

    /// <summary>The part of <see cref="Value"/> that one number cannot hold.</summary>
    internal readonly double Rest => dropped - (Value - sum);

    /// <summary>Adds a term.</summary>
    /// <param name="term">Any number.</param>
    public void Add(double term)
    {
        var total = sum + term;
        var ofTerm = total - sum;
        dropped += sum - (total - ofTerm) + (term - ofTerm);
        sum = total;
    }

    /// <summary>Adds a product without rounding it first.</summary>
    /// <param name="one">One factor.</param>
    /// <param name="other">The other.</param>
    public void AddProduct(double one, double other)
    {
        var product = one * other;
        Add(product);
        dropped += Math.FusedMultiplyAdd(one, other, -product);
    }
}
