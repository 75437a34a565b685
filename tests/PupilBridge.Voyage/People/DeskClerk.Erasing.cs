namespace PupilBridge.Voyage.People;

/// <content>Orders to erase a patient.</content>
internal sealed partial class DeskClerk
{
    private const double WhileOpen = 0.15;
    private readonly List<string> known = [];

    /// <summary>Now and then somebody orders it while the patient sits there.</summary>
    public void EraseTooEarly()
    {
        if (erasing.Happens(erasures * WhileOpen) && patient is { } number)
            Add(_ => maker.Erase(number));
    }

    /// <summary>Orders somebody to be erased: whoever was examined just now, somebody of earlier, nobody, or a person with two numbers.</summary>
    public void Erase()
    {
        if (!erasing.Happens(erasures) || patient is not { } number)
            return;
        var what = erasing.NextUnit();
        if (what < 0.5)
            Order(number);
        else if (what < 0.7)
            Order(known[erasing.NextInteger(0, known.Count)]);
        else if (what < 0.8)
            Order($"Q-9{erasing.NextInteger(100, 1000)}");
        else
            EraseBoth(number, known[erasing.NextInteger(0, known.Count)]);
    }

    private void Order(string number)
    {
        Add(_ => maker.Erase(number));
        // Two letters about the same patient: the second finds nobody.
        if (erasing.Happens(0.3))
            Add(_ => maker.Erase(number));
    }

    private void EraseBoth(string kept, string other)
    {
        if (kept == other)
        {
            Order(kept);
            return;
        }

        Add(_ =>
        {
            orders.Merge(kept, other);
            return maker.Merge(kept, other);
        });
        // The number that is used no more is refused: it goes with the other.
        if (erasing.Happens(0.5))
            Add(_ => maker.Erase(other));
        Order(kept);
    }
}
