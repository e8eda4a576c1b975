using System;
using System.IO;

namespace Lampblack.Host;

/// <summary>User and password for a broker.</summary>
/// <param name="User">The user.</param>
/// <param name="Password">The password.</param>
public sealed record MqttLogin(string User, string Password)
{
    /// <summary>The variable that holds the user.</summary>
    public const string UserVariable = "LAMPBLACK_MQTT_USER";

    /// <summary>The variable that holds the password.</summary>
    public const string PasswordVariable = "LAMPBLACK_MQTT_PASSWORD";

    /// <summary>Reads them from the environment, and the password from a file where one is named: never from arguments, which every user of the machine can read.</summary>
    /// <param name="variable">Gives a variable's value.</param>
    /// <param name="passwordFile">A file whose first line is the password; null for none.</param>
    /// <returns>The login; null where no user is named.</returns>
    /// <exception cref="FileProblemException">The file can't be read.</exception>
    public static MqttLogin? Read(Func<string, string?> variable, string? passwordFile)
    {
        ArgumentNullException.ThrowIfNull(variable);
        string? user = variable(UserVariable);
        string? password = passwordFile is null ? variable(PasswordVariable) : FirstLine(passwordFile);
        return string.IsNullOrEmpty(user) ? null : new(user, password ?? string.Empty);
    }

    private static string FirstLine(string file)
    {
        try
        {
            using StreamReader reader = new(file);
            return reader.ReadLine() ?? string.Empty;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            throw new FileProblemException($"The password file {file} can't be read: {problem.Message}");
        }
    }
}
