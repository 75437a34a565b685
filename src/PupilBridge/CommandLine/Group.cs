namespace PupilBridge.CommandLine;

/// <summary>A word that only holds other commands.</summary>
internal sealed class Group : Verb
{
    /// <summary>Makes the group; its examples are the first ones of its members.</summary>
    /// <param name="name">The word on the command line.</param>
    /// <param name="description">What its members have in common.</param>
    /// <param name="members">The commands in the group.</param>
    public Group(string name, string description, params ReadOnlySpan<Verb> members)
        : base(name, description)
    {
        foreach (var member in members)
        {
            Add(member);
            Example(member.Examples[0].Line, member.Examples[0].Says);
            EndsWith([.. member.Exits]);
        }
    }
}
