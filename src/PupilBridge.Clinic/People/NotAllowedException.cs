namespace PupilBridge.Clinic.People;

/// <summary>Somebody asked for what their roles do not allow. The message says so to them, with what to do.</summary>
/// <param name="message">Sentences for a person.</param>
public sealed class NotAllowedException(string message) : Exception(message);
