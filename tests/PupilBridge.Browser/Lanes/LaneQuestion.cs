namespace PupilBridge.Browser.Lanes;

/// <summary>The one thing that a lane asks for, as the page tells it.</summary>
/// <param name="Key">Names exactly what is asked: exam, what, step, eye, stimulus, with <c>|</c> in between.</param>
/// <param name="Accepts">What an answer is, such as <c>grade</c>.</param>
public sealed record LaneQuestion(string Key, string Accepts)
{
    /// <summary>A lane that asks for nothing.</summary>
    public static LaneQuestion None { get; } = new("", "");

    /// <summary>The exam's number; 0 for none.</summary>
    public long Exam => long.TryParse(Part(0), out var exam) ? exam : 0;

    /// <summary>What is asked for, in a word, such as <c>grade-direct</c>.</summary>
    public string What => Part(1);

    /// <summary><c>OD</c>, <c>OS</c>, or <c>-</c> for both or none.</summary>
    public string Eye => Part(3);

    private string Part(int index) => Key.Split('|') is { } parts && parts.Length > index ? parts[index] : "";
}
