namespace PupilBridge.Clinic.Judging;

/// <summary>A typed line, taken word by word.</summary>
internal sealed class TypedWords
{
    private const int MaxLength = 200;
    private readonly List<string> words;
    private int next;

    /// <exception cref="EntryProblemException">The line is too long to be one.</exception>
    public TypedWords(string? text)
    {
        if (text?.Length > MaxLength)
        {
            throw new EntryProblemException($"A judgement has at most {MaxLength} characters; this has {text.Length}.");
        }

        words = [.. (text ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)];
    }

    /// <summary>Whether there are words left.</summary>
    public bool HasMore => next < words.Count;

    /// <summary>Puts a word at the end, as if it had been typed there.</summary>
    public void Append(string word) => words.Add(word);

    /// <summary>Takes the next word if it is this one.</summary>
    public bool TryTake(string word)
    {
        if (next < words.Count && words[next].Equals(word, StringComparison.OrdinalIgnoreCase))
        {
            next++;
            return true;
        }

        return false;
    }

    /// <summary>Takes the next word.</summary>
    /// <exception cref="EntryProblemException">There is none.</exception>
    public string Take(string what, string choice)
    {
        if (next < words.Count)
        {
            return words[next++];
        }

        var typed = words.Count == 0 ? "Nothing was typed" : $"After '{string.Join(' ', words)}'";
        throw new EntryProblemException($"{typed}: {what} is missing; give {choice}.");
    }

    /// <summary>Refuses words that are left over.</summary>
    /// <exception cref="EntryProblemException">There are some.</exception>
    public void RequireEnd()
    {
        if (next < words.Count)
        {
            throw new EntryProblemException(
                $"'{string.Join(' ', words[next..])}' is too much after '{string.Join(' ', words[..next])}'; leave it out."
            );
        }
    }
}
